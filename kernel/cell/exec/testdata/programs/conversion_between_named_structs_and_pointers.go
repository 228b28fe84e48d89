// Struct and pointer conversions ignore the type's name.
package main

import "fmt"

func main() {
	type a struct {
		X int
		Y []int
	}
	type b struct {
		X int
		Y []int
	}
	x := a{1, []int{1}}
	p := (*b)(&x)
	p.X = 5
	p.Y[0] = 9
	y := b(x)
	y.X = 0
	fmt.Println(x, *p, y, struct {
		X int
		Y []int
	}(y))
}
