// Permutations by swapping in place with a callback.
package main

import (
	"fmt"
	"strings"
)

func permute(xs []string, k int, f func([]string)) {
	if k == len(xs) {
		f(xs)
		return
	}
	for i := k; i < len(xs); i++ {
		xs[k], xs[i] = xs[i], xs[k]
		permute(xs, k+1, f)
		xs[k], xs[i] = xs[i], xs[k]
	}
}

func main() {
	xs := []string{"a", "b", "c"}
	n := 0
	permute(xs, 0, func(p []string) { n++; fmt.Println(n, strings.Join(p, "")) })
	fmt.Println(xs)
}
