// The predeclared and the cmp constraints cover order and equality.
package main

import (
	"cmp"
	"fmt"
	"math"
)

func maxOf[T cmp.Ordered](a T, more ...T) T {
	for _, x := range more {
		if x > a {
			a = x
		}
	}
	return a
}
func index[T comparable](xs []T, x T) int {
	for i, y := range xs {
		if x == y {
			return i
		}
	}
	return -1
}

func main() {
	fmt.Println(maxOf(3, 9, 2), maxOf("b", "abc"), maxOf(1.5), maxOf[float64](1, 2.5))
	fmt.Println(index([]string{"a", "b"}, "b"), index([][2]int{{1, 2}, {3, 4}}, [2]int{3, 4}), index([]any{1, "x"}, any("x")), index([]bool{true}, false))
	fmt.Println(cmp.Compare(1, 2), cmp.Compare("b", "a"), cmp.Less(1.0, math.NaN()), cmp.Compare(math.NaN(), 1))
}
