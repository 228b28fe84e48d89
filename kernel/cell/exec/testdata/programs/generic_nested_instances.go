// Instances nest in each other and through methods.
package main

import "fmt"

type pair[A, B any] struct {
	a A
	b B
}
type list[T any] []T

func (p pair[A, B]) flip() pair[B, A] { return pair[B, A]{p.b, p.a} }
func pairs[T any](l list[T]) list[pair[int, T]] {
	var out list[pair[int, T]]
	for i, x := range l {
		out = append(out, pair[int, T]{i, x})
	}
	return out
}
func mapl[T, U any](l list[T], f func(T) U) list[U] {
	out := make(list[U], len(l))
	for i, x := range l {
		out[i] = f(x)
	}
	return out
}

func main() {
	l := list[string]{"x", "y"}
	fmt.Println(pairs(l), mapl(pairs(l), pair[int, string].flip), pairs(pairs(l)))
	fmt.Println(mapl(l, func(s string) list[string] { return list[string]{s, s} }))
}
