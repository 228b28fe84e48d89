// Method values taken in a loop each hold their own receiver.
package main

import "fmt"

type t struct{ n int }

func (x t) get() int  { return x.n }
func (x *t) inc() int { x.n++; return x.n }

func main() {
	xs := []t{{1}, {2}, {3}}
	var gets, incs []func() int
	for i, x := range xs {
		gets = append(gets, x.get)
		incs = append(incs, xs[i].inc, x.inc)
	}
	xs[0].n = 100
	for i := range gets {
		fmt.Println(gets[i](), incs[2*i](), incs[2*i+1]())
	}
	fmt.Println(xs)
}
