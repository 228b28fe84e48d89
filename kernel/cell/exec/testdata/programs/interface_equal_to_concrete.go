// An interface is compared with a concrete value of a type that implements it.
package main

import "fmt"

type id string

func (i id) String() string { return string(i) }

type pt struct{ x, y int }

func main() {
	var s fmt.Stringer = id("a")
	fmt.Println(s == id("a"), s != id("b"), id("a") == s)
	var v any = pt{1, 2}
	fmt.Println(v == pt{1, 2}, v == any(pt{2, 1}), v != pt{1, 2})
	v = 3
	fmt.Println(v == 3, v == 3.0, v == int8(3), v == 'a'-94)
	var e error
	fmt.Println(e == nil, any(e) == nil, v != nil)
}
