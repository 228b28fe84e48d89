// Appending to the missing entry of a map of slices starts a new one.
package main

import (
	"fmt"
	"strings"
)

func main() {
	m := map[string][]int{}
	for i, w := range strings.Fields("a b a c b a") {
		m[w] = append(m[w], i)
	}
	fmt.Println(m)
	s := m["a"]
	s[0] = 100
	s = append(s, 7)
	fmt.Println(m["a"], len(s))
	m["a"][1]--
	fmt.Println(m["a"], m["none"] == nil, len(m["none"]))
}
