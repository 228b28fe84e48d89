// Generic interfaces are implemented by generic types.
package main

import "fmt"

type container[T any] interface {
	put(T)
	all() []T
}
type bag[T any] struct{ xs []T }

func (b *bag[T]) put(x T)  { b.xs = append(b.xs, x) }
func (b *bag[T]) all() []T { return b.xs }

type last[T any] struct{ x []T }

func (l *last[T]) put(x T)  { l.x = []T{x} }
func (l *last[T]) all() []T { return l.x }
func fill[T any](c container[T], xs ...T) container[T] {
	for _, x := range xs {
		c.put(x)
	}
	return c
}

type ints = container[int]

func main() {
	var c ints = &bag[int]{}
	fmt.Println(fill(c, 1, 2).all(), fill(&last[string]{}, "a", "b").all(), fill[any](&bag[any]{}, 1, "x").all())
}
