// Arrays, structs and their parts are assigned as whole values.
package main

import "fmt"

func main() {
	type t struct {
		a [2]int
		s string
	}
	x := [2]t{{[2]int{1, 2}, "a"}, {[2]int{3, 4}, "b"}}
	x[0], x[1] = x[1], x[0]
	fmt.Println(x)
	x[0].a, x[1].a = x[1].a, x[0].a
	fmt.Println(x)
	y := x[0]
	x[0].a[0] = 100
	y.a[1] = -1
	fmt.Println(x[0], y)
	x[1] = t{a: [2]int{x[0].a[1], x[0].a[0]}}
	p := &x[0].a
	*p = [2]int{7, 7}
	fmt.Println(x)
	x[0].a[0], x[0].a[1] = x[0].a[1]+1, x[0].a[0]-1
	fmt.Println(*p)
}
