// Fields are reached through pointers without writing the dereference.
package main

import "fmt"

func main() {
	type c struct{ v int }
	type b struct{ c *c }
	type a struct{ b *b }
	x := &a{&b{&c{1}}}
	x.b.c.v++
	pp := &x
	(*pp).b.c.v *= 10
	y := *x
	y.b = &b{&c{5}}
	fmt.Println(x.b.c.v, y.b.c.v, (*x.b).c == x.b.c)
	v := &x.b.c.v
	*v = 7
	fmt.Println((**pp).b.c.v)
}
