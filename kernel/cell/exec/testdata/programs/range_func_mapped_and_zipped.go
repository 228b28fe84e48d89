// Iterators of other types are made from iterators.
package main

import (
	"fmt"
	"strings"
)

type seq[T any] func(func(T) bool)

func of[T any](xs ...T) seq[T] {
	return func(yield func(T) bool) {
		for _, x := range xs {
			if !yield(x) {
				return
			}
		}
	}
}
func mapped[T, U any](s seq[T], f func(T) U) seq[U] {
	return func(yield func(U) bool) {
		for x := range s {
			if !yield(f(x)) {
				return
			}
		}
	}
}

func main() {
	for s := range mapped(of(1, 2, 3), func(i int) string { return strings.Repeat("*", i) }) {
		fmt.Println(s)
	}
	for n := range mapped(of("a", "bcd"), func(s string) int { return len(s) }) {
		fmt.Println(n + 1)
	}
}
