// An optional value with methods that return other instances.
package main

import "fmt"

type opt[T any] struct {
	v  T
	ok bool
}

func some[T any](v T) opt[T] { return opt[T]{v, true} }
func none[T any]() opt[T]    { return opt[T]{} }
func (o opt[T]) or(d T) T {
	if o.ok {
		return o.v
	}
	return d
}
func then[T, U any](o opt[T], f func(T) opt[U]) opt[U] {
	if !o.ok {
		return none[U]()
	}
	return f(o.v)
}

func main() {
	half := func(n int) opt[float64] {
		if n < 0 {
			return none[float64]()
		}
		return some(float64(n) / 2)
	}
	fmt.Println(then(some(3), half).or(-1), then(some(-3), half).or(-1), then(none[int](), half).or(-2), some("x"))
}
