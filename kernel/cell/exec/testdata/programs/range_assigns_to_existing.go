// A range with = stores into variables, elements and fields.
package main

import "fmt"

func main() {
	var p struct{ i, v int }
	for p.i, p.v = range []int{7, 8, 9} {
	}
	fmt.Println(p)
	a := [2]int{}
	m := map[string]rune{}
	for a[1], m["r"] = range "xyz" {
	}
	fmt.Println(a, m)
	xs := []int{0, 0, 0}
	i := 0
	for i, xs[i] = range []int{4, 5, 6} {
	}
	fmt.Println(i, xs)
}
