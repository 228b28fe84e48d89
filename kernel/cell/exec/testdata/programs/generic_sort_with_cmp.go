// A generic insertion sort takes its order from the caller.
package main

import (
	"cmp"
	"fmt"
)

func sortBy[T any, K cmp.Ordered](xs []T, key func(T) K) []T {
	out := append([]T(nil), xs...)
	for i := 1; i < len(out); i++ {
		for j := i; j > 0 && key(out[j]) < key(out[j-1]); j-- {
			out[j], out[j-1] = out[j-1], out[j]
		}
	}
	return out
}

func main() {
	ws := []string{"pear", "fig", "banana", "kiwi"}
	fmt.Println(sortBy(ws, func(s string) int { return len(s) }), sortBy(ws, func(s string) string { return s }), ws)
	fmt.Println(sortBy([]int{3, 1, 2}, func(n int) float64 { return -float64(n) }))
}
