// Generic variadics pass slices on without copying.
package main

import "fmt"

func fill[T any](v T, dst ...T) []T {
	for i := range dst {
		dst[i] = v
	}
	return dst
}
func concat[T any](xss ...[]T) (out []T) {
	for _, xs := range xss {
		out = append(out, xs...)
	}
	return
}

func main() {
	a := []int{1, 2, 3}
	b := fill(7, a[1:]...)
	fmt.Println(a, b, fill("x"), len(fill(1)), concat(a, b, nil, []int{9}), concat[string]() == nil)
}
