// Map elements of interface and function type are nil until set.
package main

import "fmt"

func main() {
	m := map[string]any{"a": nil, "b": 0}
	v, ok := m["a"]
	w, ok2 := m["x"]
	fmt.Println(v == nil, ok, w == nil, ok2, m["b"] == 0, m["b"] == 0.0)
	if n, ok := m["b"].(int); ok {
		m["b"] = n + 1
	}
	_, ok = m["none"].(int)
	fmt.Println(m, ok)
	f := map[bool][]func() int{}
	f[true] = append(f[true], func() int { return len(f) })
	f[false] = nil
	fmt.Println(f[true][0](), len(f[false]))
}
