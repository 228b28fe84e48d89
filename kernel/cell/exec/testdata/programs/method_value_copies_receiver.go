// A method value of a value receiver keeps the receiver as it was then.
package main

import "fmt"

type c struct{ n int }

func (v c) get() int { return v.n }

func main() {
	x := c{1}
	f := x.get
	x.n = 2
	fmt.Println(f(), x.get())
	p := &x
	g := p.get
	p.n = 3
	fmt.Println(g(), p.get(), f())
}
