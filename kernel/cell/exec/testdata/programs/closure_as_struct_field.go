// A function in a struct field is called through the field, not as a method.
package main

import "fmt"

type op struct {
	name string
	do   func(float64, float64) float64
}

func main() {
	ops := []op{{"add", func(a, b float64) float64 { return a + b }}, {"div", func(a, b float64) float64 { return a / b }}}
	for _, o := range ops {
		fmt.Println(o.name, o.do(1, 4))
	}
	ops[0].do = ops[1].do
	fmt.Println(ops[0].do(9, 3))
}
