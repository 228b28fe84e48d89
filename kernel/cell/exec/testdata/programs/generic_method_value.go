// Method values and expressions of generic types work.
package main

import "fmt"

type acc[T int | float64 | string] struct{ t T }

func (a *acc[T]) add(x T) T { a.t += x; return a.t }
func (a acc[T]) get() T     { return a.t }
func apply[T any](f func(T) T, xs ...T) (r T) {
	for _, x := range xs {
		r = f(x)
	}
	return
}

func main() {
	a := &acc[string]{"s"}
	g := a.get
	fmt.Println(apply(a.add, "a", "b", "c"))
	fmt.Println(g(), acc[string].get(*a), (*acc[int]).add(&acc[int]{40}, 2))
}
