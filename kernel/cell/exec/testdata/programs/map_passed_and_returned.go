// A map is shared by all that hold it, an assignment of nil is not.
package main

import "fmt"

func main() {
	set := func(m map[string]int) map[string]int {
		m["set"]++
		n := m
		m = nil
		return n
	}
	m := map[string]int{}
	n := set(m)
	n["n"] = 1
	set(n)
	fmt.Println(m, len(m), n["set"])
	type holder struct{ m map[string]int }
	h := holder{m}
	g := h
	g.m["g"] = 2
	g.m = nil
	fmt.Println(len(h.m), len(m), g.m == nil)
}
