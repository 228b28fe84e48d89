// An ordered tree is built over any ordered type.
package main

import (
	"fmt"
	"strings"
)

type tree[T any] struct {
	l, r *tree[T]
	v    T
}

func insert[T any](t *tree[T], v T, cmpf func(a, b T) int) *tree[T] {
	switch {
	case t == nil:
		return &tree[T]{v: v}
	case cmpf(v, t.v) < 0:
		t.l = insert(t.l, v, cmpf)
	default:
		t.r = insert(t.r, v, cmpf)
	}
	return t
}
func (t *tree[T]) all(yield func(T) bool) bool {
	return t == nil || t.l.all(yield) && yield(t.v) && t.r.all(yield)
}

func main() {
	var t *tree[string]
	for _, s := range strings.Fields("the quick brown fox jumps over it") {
		t = insert(t, s, strings.Compare)
	}
	t.all(func(s string) bool { fmt.Print(s, " "); return s != "quick" })
	fmt.Println()
}
