// Pointers are equal if they point to the same variable.
package main

import "fmt"

func main() {
	type t struct{ a, b int }
	x, y := t{1, 2}, t{1, 2}
	fmt.Println(&x == &x, &x == &y, x == y, &x.a == &x.a, &x.a == &x.b)
	s := []t{x, y}
	fmt.Println(&s[0] == &s[0], &s[0] == &s[1], &s[1].a == &s[1:][0].a)
	f := func() *int { n := 5; return &n }
	fmt.Println(f() == f(), *f() == *f())
	p := &x
	z := *p
	fmt.Println(&z == p, z == *p)
}
