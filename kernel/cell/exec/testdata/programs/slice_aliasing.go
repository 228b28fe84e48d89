// Slices of one array share its elements.
package main

import "fmt"

func main() {
	a := []int{1, 2, 3, 4, 5}
	b := a[1:4]
	c := b[1:3]
	c[0] = 30
	b[0] = 20
	fmt.Println(a, b, c, len(c))
	d := a
	d[4] = 50
	fmt.Println(a[4], len(b[:4]), b[:4])
}
