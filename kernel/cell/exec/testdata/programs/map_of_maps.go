// Inner maps must be made before they are written.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	m := map[string]map[int]bool{}
	add := func(k string, n int) {
		if m[k] == nil {
			m[k] = map[int]bool{}
		}
		m[k][n] = true
	}
	add("x", 1)
	add("x", 2)
	add("y", 1)
	fmt.Println(m, m["x"][2], m["z"][1], len(m["z"]))
	delete(m["x"], 1)
	delete(m["none"], 1)
	try("nil inner", func() { m["z"][1] = true })
	fmt.Println(m)
}
