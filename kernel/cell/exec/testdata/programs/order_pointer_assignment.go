// Pointers on the left are evaluated before the assignment happens.
package main

import "fmt"

func main() {
	type node struct {
		v    int
		next *node
	}
	a, b := &node{v: 1}, &node{v: 2}
	p := a
	p, p.v = b, 10
	fmt.Println(a.v, b.v, p == b)
	p.next, p = a, a
	fmt.Println(b.next == a, p == a, a.next)
	var head *node
	for i := range 3 {
		head, head = &node{i, head}, &node{i * 10, head}
	}
	for n := head; n != nil; n = n.next {
		fmt.Print(n.v, " ")
	}
	fmt.Println()
}
