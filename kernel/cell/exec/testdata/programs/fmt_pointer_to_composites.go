// Pointers to composites print with an ampersand at the top level.
package main

import "fmt"

func main() {
	type t struct {
		A int
		B []string
	}
	p := &t{1, []string{"x"}}
	fmt.Printf("%v %+v\n", p, p)
	fmt.Println(p, &[]int{1, 2}, &map[string]int{"a": 1}, &[2]bool{true})
	fmt.Printf("%v %d %s\n", &struct{ X, Y int }{1, 2}, &[]int{3}, &[]string{"q"})
	var np *t
	var nm *map[string]int
	fmt.Printf("%v %+v %v\n", np, np, nm)
	fmt.Println(np, nm, []*t{nil})
}
