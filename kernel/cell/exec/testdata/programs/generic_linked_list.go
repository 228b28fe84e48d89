// A generic list refers to itself in its own definition.
package main

import "fmt"

type node[T any] struct {
	v    T
	next *node[T]
}

func list[T any](xs ...T) (l *node[T]) {
	for i := len(xs) - 1; i >= 0; i-- {
		l = &node[T]{xs[i], l}
	}
	return
}
func (l *node[T]) reverse() (prev *node[T]) {
	for l != nil {
		l.next, prev, l = prev, l, l.next
	}
	return
}
func (l *node[T]) each(f func(int, T)) {
	for i := 0; l != nil; i, l = i+1, l.next {
		f(i, l.v)
	}
}

func main() {
	list("a", "b", "c").reverse().each(func(i int, s string) { fmt.Printf("%d%s ", i, s) })
	list(1.5, 2).each(func(i int, x float64) { fmt.Printf("%d:%g ", i, x) })
	fmt.Println(list[int]() == nil, list(7).next == nil)
}
