// Zero values of nested structs are ready for use.
package main

import "fmt"

func main() {
	type in struct {
		n int
		m map[string]int
		e error
	}
	type out struct {
		a [2]in
		p *in
		f func()
		s string
		_ int
	}
	var o out
	fmt.Println(o.a[1].n, o.a[0].m["x"], o.p == nil, o.f == nil, o.s == "", o.a[0].e)
	o.a[1].n++
	q := out{a: [2]in{{n: 1}, {n: 2}}}
	fmt.Println(q.a[0].n+o.a[1].n, len(q.a[1].m))
}
