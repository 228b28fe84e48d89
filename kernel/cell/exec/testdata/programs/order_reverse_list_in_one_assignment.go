// A list is reversed by one three-fold assignment per node.
package main

import "fmt"

func main() {
	type node struct {
		v    int
		next *node
	}
	var head, prev *node
	for i := range 5 {
		head = &node{i, head}
	}
	for cur := head; cur != nil; {
		cur.next, prev, cur = prev, cur, cur.next
	}
	for n := prev; n != nil; n = n.next {
		fmt.Print(n.v, " ")
	}
	fmt.Println()
}
