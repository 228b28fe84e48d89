// The value variable of a map range is a copy.
package main

import "fmt"

func main() {
	type t struct {
		n int
		p *int
	}
	x := 1
	m := map[string]t{"a": {1, &x}}
	for k, v := range m {
		v.n = 50
		*v.p = 60
		w := m[k]
		w.n++
		m[k] = w
	}
	fmt.Println(m["a"].n, x)
}
