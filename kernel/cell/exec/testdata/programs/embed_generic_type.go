// A generic type can be embedded under its base name.
package main

import "fmt"

type stack[T any] struct{ items []T }

func (s *stack[T]) push(x T)  { s.items = append(s.items, x) }
func (s *stack[T]) size() int { return len(s.items) }

type named struct {
	stack[string]
	name string
}

func main() {
	n := named{name: "n"}
	n.push("a")
	n.push("b")
	fmt.Println(n.size(), n.items, n.stack.items[1], n)
}
