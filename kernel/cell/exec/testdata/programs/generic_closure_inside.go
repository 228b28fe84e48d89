// A closure in a generic function keeps the instance's types.
package main

import "fmt"

func memo[K comparable, V any](f func(K) V) (func(K) V, *int) {
	seen := map[K]V{}
	n := 0
	return func(k K) V {
		if v, ok := seen[k]; ok {
			return v
		}
		n++
		v := f(k)
		seen[k] = v
		return v
	}, &n
}

func main() {
	f, n := memo(func(s string) int { return len(s) })
	g, m := memo(func(x int) []int { return make([]int, x) })
	fmt.Println(f("abc"), f("abc"), f("d"), len(g(3)), len(g(3)))
	fmt.Println(*n, *m)
}
