// An instantiated generic function is an ordinary value.
package main

import "fmt"

func twice[T any](f func(T) T) func(T) T { return func(x T) T { return f(f(x)) } }
func double[T int | string](x T) T       { return x + x }

func main() {
	f := double[int]
	g := double[string]
	var h func(int) int = double
	fmt.Println(f(2), g("a"), h(5), twice(double[string])("x"), twice(twice(f))(1))
	fs := map[string]func(int) int{"d": double[int], "q": twice(f)}
	fmt.Println(fs["d"](3), fs["q"](3))
}
