// The best value under a weight limit by dynamic programming.
package main

import "fmt"

func main() {
	type item struct {
		name string
		w, v int
	}
	items := []item{{"a", 3, 4}, {"b", 4, 5}, {"c", 7, 10}, {"d", 8, 11}, {"e", 9, 13}}
	const limit = 17
	best := make([][limit + 1]int, len(items)+1)
	for i, it := range items {
		for w := range best[i] {
			best[i+1][w] = best[i][w]
			if w >= it.w {
				best[i+1][w] = max(best[i][w], best[i][w-it.w]+it.v)
			}
		}
	}
	var take []string
	for i, w := len(items), limit; i > 0; i-- {
		if best[i][w] != best[i-1][w] {
			take = append(take, items[i-1].name)
			w -= items[i-1].w
		}
	}
	fmt.Println(best[len(items)][limit], take)
}
