// Operations on type parameters with a core type work on the instance.
package main

import (
	"fmt"
	"strconv"
)

func fill[S ~[]E, E any](n int, e E) S {
	s := make(S, 0, n)
	for range n {
		s = append(s, e)
	}
	clear(s[:1])
	return s[:n:n]
}
func count[M ~map[K]V, K comparable, V comparable](m M, v V) (n int) {
	for k := range m {
		if m[k] == v {
			n++
		}
	}
	return
}
func call[F ~func(A) R, A, R any](f F, a A) R { return f(a) }
func upto[N ~uint8](n N) (t N) {
	for i := range n {
		t += i
	}
	return
}

type row []string
type small uint8

func main() {
	fmt.Println(fill[row](3, "x"), fill[[]int](2, 7), count(map[string]int{"a": 1, "b": 1}, 1))
	fmt.Println(call(strconv.Itoa, 42), call(func(s string) []byte { return []byte(s) }, "hi"), upto(small(5)), upto(uint8(30)))
	fmt.Printf("%T\n", fill[row](1, ""))
}
