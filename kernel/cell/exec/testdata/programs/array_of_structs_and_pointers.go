// Elements of arrays are changed in place.
package main

import "fmt"

func main() {
	type c struct {
		n int
		s []string
	}
	var a [2]c
	a[0].n++
	a[0].s = append(a[0].s, "x")
	b := a
	b[0].n = 50
	b[0].s[0] = "shared"
	fmt.Println(a, b)
	ps := [...]*c{&a[0], &a[1], &a[0]}
	ps[2].n += 10
	fmt.Println(a[0].n, ps[0] == ps[2], ps[0] == ps[1])
}
