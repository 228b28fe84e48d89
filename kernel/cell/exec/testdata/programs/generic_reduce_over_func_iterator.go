// Generic functions take iterators and range over them.
package main

import (
	"fmt"
	"strconv"
	"strings"
)

func collect[T any](s func(func(T) bool)) (out []T) {
	for x := range s {
		out = append(out, x)
	}
	return
}
func fold[A, K, V any](s func(func(K, V) bool), a A, f func(A, K, V) A) A {
	for k, v := range s {
		a = f(a, k, v)
	}
	return a
}
func enumerate[T any](xs []T) func(func(int, T) bool) {
	return func(yield func(int, T) bool) {
		for i, x := range xs {
			if !yield(i+1, x) {
				return
			}
		}
	}
}

func main() {
	fmt.Println(collect(strings.FieldsSeq("a b c")), collect(func(y func(float64) bool) { _ = y(1) && y(2.5) }))
	fmt.Println(fold(enumerate([]string{"x", "yy"}), "", func(a string, i int, s string) string { return a + strconv.Itoa(i) + s }))
	fmt.Println(fold(enumerate([]int{5, 6}), 0, func(a, i, x int) int { return a + i*x }))
}
