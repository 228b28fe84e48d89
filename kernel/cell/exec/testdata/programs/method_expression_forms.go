// Method expressions take the receiver as first argument.
package main

import "fmt"

type v struct{ x, y int }

func (a v) add(b v) v    { return v{a.x + b.x, a.y + b.y} }
func (a *v) scale(k int) { a.x *= k; a.y *= k }

type adder interface{ add(v) v }

func main() {
	f, g, h := v.add, (*v).scale, (*v).add
	a := v{1, 2}
	g(&a, 3)
	fmt.Println(f(a, v{1, 1}), h(&a, v{10, 10}), a)
	k := adder.add
	fmt.Println(k(a, a))
	fmt.Printf("%T\n%T\n", f, g)
}
