// The builtin new takes an expression since Go 1.26.
package main

import "fmt"

func main() {
	p := new(42)
	q := new("text")
	x := 1.5
	r := new(x * 2)
	*p++
	x = 9
	fmt.Println(*p, *q, *r)
	type opt struct{ n *int }
	o := opt{new(7)}
	fmt.Println(*o.n, *new(len(*q)))
}
