// Sums over a map do not depend on its order.
package main

import (
	"fmt"
	"sort"
)

func main() {
	m := map[string]int{"a": 1, "b": 2, "c": 3}
	sum, keys := 0, []string{}
	for k, v := range m {
		sum += v
		keys = append(keys, k)
	}
	sort.Strings(keys)
	fmt.Println(sum, keys)
	for k := range m {
		m[k] *= 10
	}
	fmt.Println(m)
	var nilm map[int]int
	for range nilm {
		fmt.Println("never")
	}
}
