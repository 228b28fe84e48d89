// Structs in a map are replaced as a whole, through pointers in part.
package main

import "fmt"

func main() {
	type t struct {
		n int
		s []int
	}
	m := map[string]t{"a": {1, []int{1}}}
	v := m["a"]
	v.n = 2
	v.s[0] = 9
	fmt.Println(m["a"], m["none"].n, m["a"].s[0])
	m["a"] = v
	m["a"].s[0]++
	fmt.Println(m)
	p := map[string]*t{"a": {n: 5}}
	p["a"].n++
	p["a"].s = append(p["a"].s, 3)
	fmt.Println(*p["a"])
}
