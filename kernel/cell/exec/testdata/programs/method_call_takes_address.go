// A pointer method called on an addressable value changes the value itself.
package main

import "fmt"

type c struct{ n int }

func (p *c) inc() { p.n++ }

type box struct {
	c
	list []c
	arr  [2]c
}

func main() {
	var b box
	b.inc()
	b.c.inc()
	b.list = make([]c, 2)
	b.list[1].inc()
	b.arr[0].inc()
	p := &b.arr[1]
	p.inc()
	(&b.list[0]).inc()
	fmt.Println(b)
	for _, x := range b.list {
		x.inc()
	}
	for i := range b.list {
		b.list[i].inc()
	}
	fmt.Println(b.list)
}
