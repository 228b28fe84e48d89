// Only the pointer has the pointer methods when a value is put into an any.
package main

import "fmt"

type t struct{ n int }

func (x t) get() int   { return x.n }
func (x *t) set(n int) { x.n = n }

type getter interface{ get() int }
type setter interface{ set(int) }

func main() {
	v := t{1}
	for _, x := range []any{v, &v} {
		_, g := x.(getter)
		s, ok := x.(setter)
		fmt.Println(g, ok)
		if ok {
			s.set(5)
		}
	}
	fmt.Println(v.get())
}
