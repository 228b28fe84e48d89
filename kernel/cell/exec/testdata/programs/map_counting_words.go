// Counting words and sorting by count then name.
package main

import (
	"fmt"
	"sort"
	"strings"
)

func main() {
	count := map[string]int{}
	for _, w := range strings.Fields("the cat and the dog and the bird") {
		count[w]++
	}
	keys := make([]string, 0, len(count))
	for k := range count {
		keys = append(keys, k)
	}
	sort.Slice(keys, func(i, j int) bool {
		a, b := keys[i], keys[j]
		return count[a] > count[b] || count[a] == count[b] && a < b
	})
	for _, k := range keys {
		fmt.Printf("%s=%d ", k, count[k])
	}
	fmt.Println()
}
