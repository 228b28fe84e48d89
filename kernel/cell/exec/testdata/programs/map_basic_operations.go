// Maps are set, read, counted and cleared.
package main

import "fmt"

func main() {
	m := map[string]int{"a": 1}
	m["b"] = 2
	m["a"]++
	m["c"] += 5
	v, ok := m["zz"]
	fmt.Println(m, len(m), v, ok, m["zz"])
	delete(m, "a")
	delete(m, "never")
	if _, ok := m["a"]; !ok {
		fmt.Println("gone", len(m))
	}
	n := m
	n["x"] = 9
	fmt.Println(m["x"])
	clear(n)
	fmt.Println(len(m), m)
}
