// A pointer method on a copy leaves the original alone.
package main

import "fmt"

type c struct{ n int }

func (x *c) inc() { x.n++ }

type w struct{ in c }

func (x w) copy() w  { return x }
func (x *w) ptr() *w { return x }

func main() {
	a := w{c{1}}
	b := a.copy()
	b.in.inc()
	a.ptr().in.inc()
	a.ptr().ptr().in.n *= 10
	fmt.Println(a, b)
	xs := []w{a, b}
	for i := range xs {
		xs[i].in.inc()
	}
	for _, x := range xs {
		x.in.inc()
	}
	fmt.Println(xs, a, b)
}
