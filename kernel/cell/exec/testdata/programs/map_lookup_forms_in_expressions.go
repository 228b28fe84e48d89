// Map elements take part in larger expressions with their zero values.
package main

import (
	"fmt"
	"strings"
)

func main() {
	m := map[string]float64{"a": 2}
	n := map[string][]string{"k": {"x", "y"}}
	g := map[int]map[int]int{1: {2: 3}}
	fmt.Println(m["a"]*3+m["none"], len(n["none"]), len(n["k"][1:]), g[1][2]+g[5][6], -m["a"] < m["b"])
	m["b"] = m["a"] / 4
	m["c"] += m["b"] + m["d"]
	n["k"][0], n["l"] = n["k"][1], n["k"][:1]
	fmt.Println(m, n, max(m["a"], m["b"]), strings.Join(n["k"], "+"))
}
