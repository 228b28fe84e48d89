// Structs are copied on assignment, in calls and from containers.
package main

import "fmt"

func main() {
	type t struct {
		a int
		b [2]int
		c []int
		d *int
	}
	f := func(x t) t { x.a++; x.b[0]++; x.c[0]++; *x.d++; return x }
	n := 1
	x := t{1, [2]int{1, 1}, []int{1}, &n}
	y := f(x)
	fmt.Println(x.a, x.b, x.c, n, y.a, y.b, y.c)
	s := []t{x}
	z := s[0]
	z.a = 100
	fmt.Println(s[0].a, x.d == z.d)
}
