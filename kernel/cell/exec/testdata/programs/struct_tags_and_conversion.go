// Field tags do not stand in the way of a conversion.
package main

import "fmt"

func main() {
	type a struct {
		N int `k:"n"`
		S string
	}
	type b struct {
		N int
		S string `k:"s"`
	}
	x := a{1, "x"}
	y := b(x)
	y.N++
	fmt.Println(x, y, a(y) == a{2, "x"})
	p := (*b)(&x)
	p.S = "changed"
	fmt.Println(x)
}
