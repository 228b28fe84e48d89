// Arguments are copies, their referents are not.
package main

import "fmt"

func main() {
	type t struct {
		a [2]int
		s []int
		m map[string]int
		p *int
	}
	f := func(x t, a [2]int, s []int, n int, p *int) {
		x.a[0], x.s[0], x.m["k"] = 9, 9, 9
		*x.p++
		a[0], s[1], n = 8, 8, 8
		p = nil
		_, _ = n, p
	}
	n := 1
	x := t{[2]int{1, 1}, []int{1, 1}, map[string]int{"k": 1}, &n}
	f(x, x.a, x.s, n, &n)
	fmt.Println(x.a, x.s, x.m, n)
}
