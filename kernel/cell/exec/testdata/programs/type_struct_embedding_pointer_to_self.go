// A struct may embed a pointer to its own type through another.
package main

import "fmt"

type base struct {
	name   string
	parent *child
}
type child struct {
	*base
	n int
}

func (b *base) path() string {
	if b.parent == nil {
		return b.name
	}
	return b.parent.path() + "/" + b.name
}

func main() {
	root := &child{&base{name: "root"}, 1}
	mid := &child{&base{"mid", root}, 2}
	leaf := child{&base{"leaf", mid}, 3}
	fmt.Println(leaf.path(), leaf.parent.n, leaf.parent.parent.name, leaf.base.parent.base.parent.n)
	mid.name = "changed"
	f := leaf.path
	leaf.name = "x"
	fmt.Println(f())
}
