// A method value of an interface keeps the dynamic value it had.
package main

import "fmt"

type namer interface{ name() string }
type a string

func (s a) name() string { return "a " + string(s) }

type b struct{ s string }

func (x *b) name() string { return "b " + x.s }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var n namer = a("one")
	f := n.name
	y := &b{"two"}
	n = y
	g := n.name
	n = nil
	y.s = "three"
	fmt.Println(f(), g())
	try("nil", func() { h := n.name; fmt.Println(h()) })
}
