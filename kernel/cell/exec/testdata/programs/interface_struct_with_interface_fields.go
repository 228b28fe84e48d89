// Structs of interface fields compare and copy by dynamic value.
package main

import (
	"fmt"
	"strconv"
)

type ev struct {
	name string
	data any
	next fmt.Stringer
}
type id int

func (i id) String() string { return "id" + strconv.Itoa(int(i)) }

type id2 struct{ n int }

func (p *id2) String() string { return fmt.Sprintf("p%d", p.n) }

func main() {
	a := ev{"a", 1, id(2)}
	b := a
	b.data = 1
	fmt.Println(a == b, a)
	b.next = id(3)
	fmt.Println(a == b, b.next, a.next)
	p := &id2{5}
	c, d := ev{next: p}, ev{next: p}
	p.n = 6
	fmt.Println(c == d, c.next, c == ev{next: &id2{6}})
}
