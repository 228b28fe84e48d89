// Types declared in a function are distinct per declaration.
package main

import "fmt"

func main() {
	f := func() any { type t struct{ a int }; return t{1} }
	g := func() any { type t struct{ a int }; return t{1} }
	fmt.Println(f() == f(), f() == g(), g() == g())
	type rec struct {
		next *rec
		n    int
	}
	r := &rec{&rec{nil, 2}, 1}
	fmt.Println(r.next.n, r.n)
}
