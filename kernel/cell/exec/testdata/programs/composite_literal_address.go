// The address of a literal is a new variable at each evaluation.
package main

import "fmt"

func main() {
	type t struct {
		n int
		s []int
	}
	mk := func() *t { return &t{n: 1} }
	a, b := mk(), mk()
	a.n = 5
	fmt.Println(*a, *b, a == b)
	ps := []*[]int{{1}, {2, 3}}
	*ps[0] = append(*ps[0], 4)
	pm := &map[string]int{"a": 1}
	(*pm)["b"]++
	pa := &[2]string{"x"}
	pa[1] = "y"
	fmt.Println(*ps[0], len(*ps[1]), *pm, *pa)
}
