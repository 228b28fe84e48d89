// An interface finds methods promoted over several embedded pointers.
package main

import "fmt"

type l0 struct{ n int }

func (l *l0) inc() int { l.n++; return l.n }
func (l l0) get() int  { return l.n }

type l1 struct{ *l0 }
type l2 struct{ l1 }
type l3 struct {
	*l2
	x int
}
type both interface {
	inc() int
	get() int
}

func main() {
	base := &l0{10}
	v := l3{&l2{l1{base}}, 1}
	var b both = v
	fmt.Println(b.inc())
	fmt.Println(b.get(), v.get(), base.n)
	f, g := b.inc, l3.get
	fmt.Println(f())
	fmt.Println(g(v), both.get(b), (*l3).get(&v))
	var fs []func() int
	for _, x := range []both{v, &v, v.l1, base} {
		fs = append(fs, x.get)
	}
	base.n = 50
	for _, f := range fs {
		fmt.Print(f(), " ")
	}
	fmt.Println()
}
