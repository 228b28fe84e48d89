// A conversion to an array copies, to an array pointer it aliases.
package main

import "fmt"

func main() {
	s := []int{1, 2, 3, 4}
	a := [2]int(s)
	p := (*[3]int)(s[1:])
	s[0], s[1] = 10, 20
	fmt.Println(a, *p, s)
	p[2] = 40
	fmt.Println(s, len(p))
	e := [0]int(s)
	fmt.Println(len(e), a == [2]int{1, 2})
	for i, v := range (*[2]int)(s) {
		fmt.Print(i, v, " ")
	}
	fmt.Println()
}
