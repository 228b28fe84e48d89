// Storing a struct through a pointer copies all of it.
package main

import "fmt"

func main() {
	type in struct{ v [2]int }
	type out struct {
		a, b in
		p    *in
	}
	o := out{a: in{[2]int{1, 2}}}
	o.p = &o.b
	*o.p = o.a
	o.a.v[0] = 50
	fmt.Println(o.a, o.b, *o.p)
	q := &o
	r := *q
	*q = out{b: in{[2]int{9, 9}}}
	fmt.Println(o.a, o.b, o.p == nil, r.a, r.p == &o.b, *r.p)
}
