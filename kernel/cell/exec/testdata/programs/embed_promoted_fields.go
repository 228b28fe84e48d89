// Fields of embedded structs are promoted through several levels.
package main

import "fmt"

type a struct{ x, y int }
type b struct {
	a
	z int
}
type c struct {
	*b
	y string
}

func main() {
	v := c{&b{a{1, 2}, 3}, "top"}
	v.x = 10
	v.z++
	fmt.Println(v.x, v.y, v.b.y, v.a.y, v.z, v.b.a.x)
	w := v
	w.x = 99
	fmt.Println(v.x, *v.b)
}
