// Elements are addressable and pointers to them stay valid.
package main

import "fmt"

func main() {
	type t struct{ n int }
	s := []t{{1}, {2}}
	p := &s[0]
	s[0].n = 10
	p.n++
	s = append(s, t{3}, t{4}, t{5})
	p.n = 99
	fmt.Println(s[0].n == 11, p.n, len(s))
	q := []*t{{7}, {8}}
	r := append([]*t(nil), q...)
	r[0].n = 70
	fmt.Println(*q[0], *r[1])
}
