// Every use through a nil pointer gives the same runtime error.
package main

import "fmt"

type node struct {
	val  int
	next *node
}

func (n node) value() int   { return n.val }
func (n *node) isNil() bool { return n == nil }

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	var p *node
	try("field", func() { fmt.Println(p.val) })
	try("store", func() { p.val = 1 })
	try("copy", func() { q := *p; fmt.Println(q) })
	try("value method", func() { fmt.Println(p.value()) })
	fmt.Println(p.isNil())
	q := &node{}
	try("second link", func() { fmt.Println(q.next.next) })
	var ip *int
	try("int", func() { *ip++ })
}
