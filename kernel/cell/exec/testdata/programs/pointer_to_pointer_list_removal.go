// A pointer to a pointer removes list elements without special cases.
package main

import "fmt"

func main() {
	type node struct {
		v    int
		next *node
	}
	var head *node
	for i := 6; i > 0; i-- {
		head = &node{i, head}
	}
	for pp := &head; *pp != nil; {
		if (*pp).v%2 == 1 {
			*pp = (*pp).next
		} else {
			pp = &(*pp).next
		}
	}
	for n := head; n != nil; n = n.next {
		fmt.Print(n.v, " ")
	}
	fmt.Println()
}
