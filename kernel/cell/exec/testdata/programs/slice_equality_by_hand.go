// Slices are compared by a generic function, not by ==.
package main

import (
	"fmt"
	"math"
)

func equal[S ~[]E, E comparable](a, b S) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

func main() {
	fmt.Println(equal([]int{1, 2}, []int{1, 2}), equal([]int{1}, nil), equal(nil, []string{}), equal([]any{1, "a"}, []any{1, "a"}))
	n := math.NaN()
	s := []float64{n}
	fmt.Println(equal(s, s), equal([]any{nil}, []any{error(nil)}), equal([][1]int{{1}}, [][1]int{{1}}))
}
