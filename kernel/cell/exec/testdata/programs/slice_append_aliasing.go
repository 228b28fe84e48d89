// An append within capacity writes into the shared array.
package main

import "fmt"

func main() {
	a := make([]int, 3, 10)
	b := append(a, 4)
	c := append(a, 5)
	fmt.Println(b[3], c[3], len(a), a[:4])
	d := append(a[:1], 9)
	fmt.Println(a, d)
	e := []int{1, 2, 3}
	f := append(e[:2:2], 100)
	f[0] = -1
	fmt.Println(e, f)
}
