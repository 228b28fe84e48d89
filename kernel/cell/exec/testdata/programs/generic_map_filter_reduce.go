// The classic three work with functions of several type parameters.
package main

import (
	"fmt"
	"strconv"
)

func mapf[T, U any](xs []T, f func(T) U) []U {
	var out []U
	for _, x := range xs {
		out = append(out, f(x))
	}
	return out
}
func filter[T any](xs []T, ok func(T) bool) (out []T) {
	for _, x := range xs {
		if ok(x) {
			out = append(out, x)
		}
	}
	return
}
func reduce[T, A any](xs []T, a A, f func(A, T) A) A {
	for _, x := range xs {
		a = f(a, x)
	}
	return a
}

func main() {
	xs := []int{1, 2, 3, 4, 5}
	sq := mapf(filter(xs, func(x int) bool { return x%2 == 1 }), func(x int) float64 { return float64(x*x) / 2 })
	fmt.Println(sq, mapf(sq, func(f float64) string { return fmt.Sprintf("<%g>", f) }))
	fmt.Println(reduce(xs, "", func(a string, x int) string { return a + strconv.Itoa(x) }), reduce(sq, 0.0, func(a, b float64) float64 { return a + b }))
}
