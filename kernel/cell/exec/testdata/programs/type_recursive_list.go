// A recursive struct type forms a list.
package main

import "fmt"

type list struct {
	head int
	tail *list
}

func cons(x int, l *list) *list { return &list{x, l} }
func (l *list) String() string {
	if l == nil {
		return "nil"
	}
	return fmt.Sprintf("%d:%v", l.head, l.tail)
}
func (l *list) len() int {
	if l == nil {
		return 0
	}
	return 1 + l.tail.len()
}
func appendTo(a, b *list) *list {
	if a == nil {
		return b
	}
	return cons(a.head, appendTo(a.tail, b))
}

func main() {
	a, b := cons(1, cons(2, nil)), cons(3, nil)
	c := appendTo(a, b)
	fmt.Println(a, b, c, c.len(), c.tail.tail == b)
}
