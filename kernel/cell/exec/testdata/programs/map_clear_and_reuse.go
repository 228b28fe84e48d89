// A cleared map can be filled anew while other holders see it.
package main

import "fmt"

func main() {
	m := map[string][]int{"a": {1}, "b": {2}}
	n := m
	keep := m["a"]
	clear(m)
	fmt.Println(len(n), keep, m["a"] == nil)
	m["c"] = keep
	keep[0] = 9
	for range 3 {
		m["c"] = append(m["c"], len(m["c"]))
	}
	fmt.Println(n, keep)
	m = map[string][]int{}
	fmt.Println(len(m), len(n))
}
