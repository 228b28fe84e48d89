// The verb v prints nested composites.
package main

import "fmt"

type in struct {
	A int
	B string
}
type out struct {
	X in
	P *int
	S []in
	M map[string][]int
	F func()
	E error
	I any
}

func main() {
	v := out{X: in{1, "b"}, S: []in{{2, "c"}}, M: map[string][]int{"z": {1}, "a": nil}}
	fmt.Println(v)
	fmt.Printf("%v\n%+v\n", v, v)
	fmt.Printf("%v %+v\n", &in{3, "p"}, &in{4, "q"})
	fmt.Printf("%v %v %v\n", []string{"a b", "c"}, [2][2]int{{1, 2}, {3, 4}}, &[]int{1})
	fmt.Printf("%v %+v\n", &map[string]int{"k": 1}, []*int{nil})
}
