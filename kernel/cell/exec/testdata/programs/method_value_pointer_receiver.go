// A method value of a pointer receiver sees later changes.
package main

import "fmt"

type counter struct{ n int }

func (c *counter) inc() int { c.n++; return c.n }

func main() {
	var c counter
	f := c.inc
	c.n = 10
	fmt.Println(f(), f())
	fmt.Println(c.n)
	p := &c
	g := p.inc
	p = &counter{100}
	fmt.Println(g())
	fmt.Println(p.n, c.n)
}
