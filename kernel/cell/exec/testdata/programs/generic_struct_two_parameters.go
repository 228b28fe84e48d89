// A struct with two parameters keeps them apart.
package main

import "fmt"

type pair[K comparable, V any] struct {
	key K
	val V
}

func (p pair[K, V]) swapInto(f func(V, K) string) string { return f(p.val, p.key) }
func mk[K comparable, V any](k K, v V) pair[K, V]        { return pair[K, V]{k, v} }
func flip[A, B comparable](p pair[A, B]) pair[B, A]      { return mk(p.val, p.key) }

func main() {
	p := mk("a", 1)
	q := flip(p)
	fmt.Println(p, q, flip(q) == p, mk(1, []string{"x"}))
	fmt.Println(p.swapInto(func(n int, s string) string { return s + fmt.Sprintf("%d", n) }))
	nested := mk(q, mk(p, 2.5))
	fmt.Printf("%v %+v\n", nested, nested)
}
