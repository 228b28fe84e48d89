// A generic set on a map has methods through its type parameter.
package main

import "fmt"

type set[T comparable] map[T]struct{}

func setOf[T comparable](xs ...T) set[T] {
	s := set[T]{}
	for _, x := range xs {
		s[x] = struct{}{}
	}
	return s
}
func (s set[T]) has(x T) bool { _, ok := s[x]; return ok }
func (s set[T]) union(t set[T]) set[T] {
	u := setOf[T]()
	for _, m := range []set[T]{s, t} {
		for x := range m {
			u[x] = struct{}{}
		}
	}
	return u
}

func main() {
	a, b := setOf(1, 2, 3), setOf(3, 4)
	u := a.union(b)
	fmt.Println(len(u), u.has(4), a.has(4), setOf("x", "x"), setOf[[2]int]([2]int{1, 2}).has([2]int{1, 2}))
	fmt.Println(u)
}
