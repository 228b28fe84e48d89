// A generic type has methods that use its parameter.
package main

import "fmt"

type stack[T any] struct{ items []T }

func (s *stack[T]) push(xs ...T) { s.items = append(s.items, xs...) }
func (s *stack[T]) pop() (x T, ok bool) {
	if len(s.items) == 0 {
		return x, false
	}
	n := len(s.items) - 1
	x, s.items = s.items[n], s.items[:n]
	return x, true
}
func (s stack[T]) size() int { return len(s.items) }

func main() {
	var a stack[int]
	a.push(1, 2)
	fmt.Println(a.pop())
	fmt.Println(a.pop())
	fmt.Println(a.pop())
	b := stack[[]string]{}
	b.push([]string{"x"}, nil)
	fmt.Println(b.size(), b)
	fmt.Println(b.pop())
}
