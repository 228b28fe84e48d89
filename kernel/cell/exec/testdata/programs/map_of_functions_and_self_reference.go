// A map may hold functions that use the map.
package main

import "fmt"

func main() {
	var m map[string]func(int) int
	m = map[string]func(int) int{
		"fact": func(n int) int {
			if n < 2 {
				return 1
			}
			return n * m["fact"](n-1)
		},
		"twice": func(n int) int { return 2 * n },
	}
	fmt.Println(m["fact"](6), m["twice"](m["fact"](3)), m["x"] == nil, len(m))
	m["fact"] = m["twice"]
	fmt.Println(m["fact"](6))
}
