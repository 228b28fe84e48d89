// Methods return closures over the receiver, by value and by pointer.
package main

import "fmt"

type c struct{ n int }

func (x c) byValue() func() int    { return func() int { x.n++; return x.n } }
func (x *c) byPointer() func() int { return func() int { x.n++; return x.n } }

type ops struct{ a, b func() int }

func main() {
	v := c{10}
	o := ops{v.byValue(), v.byPointer()}
	o.a()
	o.b()
	v.n += 100
	fmt.Println(o.a())
	fmt.Println(o.b())
	fmt.Println(v.n)
}
