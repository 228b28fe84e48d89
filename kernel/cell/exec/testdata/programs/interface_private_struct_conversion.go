// Structs of identical fields convert into each other.
package main

import "fmt"

type a struct {
	x int
	s string
}
type b struct {
	x int
	s string
}

func main() {
	v := a{1, "one"}
	w := b(v)
	w.x = 2
	u := struct {
		x int
		s string
	}(w)
	var z b = u
	fmt.Println(v, w, u, z == w, a(w) == v)
	var i any = w
	_, isA := i.(a)
	fmt.Println(isA)
}
