// A method value of a value receiver through a nil pointer panics when it is made.
package main

import "fmt"

type t struct{ n int }

func (v t) val() int   { return v.n }
func (v *t) ptr() bool { return v == nil }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var p *t
	f := p.ptr
	fmt.Println(f())
	try("made", func() {
		g := p.val
		fmt.Println("not reached", g)
	})
}
