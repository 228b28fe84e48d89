// Method expressions reach promoted methods of values and pointers.
package main

import "fmt"

type in struct{ n int }

func (i in) get() int       { return i.n }
func (i *in) set(n int) *in { i.n = n; return i }

type mid struct{ *in }
type out struct {
	mid
	s string
}

func main() {
	o := out{mid{&in{1}}, "s"}
	out.set(o, 5)
	f := out.get
	g := (*out).get
	h := mid.set
	fmt.Println(f(o), g(&o))
	fmt.Println(h(o.mid, 7).get())
	fmt.Println(o.n)
}
