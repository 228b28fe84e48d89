// A local whose address is returned lives on.
package main

import "fmt"

func mk(n int) (*int, func() int) {
	x := n
	return &x, func() int { return x }
}

type acc struct{ n int }

func newAcc() *acc { a := acc{10}; p := &a; a.n++; return p }

func main() {
	p, f := mk(1)
	q, g := mk(2)
	*p = 100
	*q += 5
	fmt.Println(f(), g(), newAcc().n)
}
