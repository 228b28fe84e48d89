// The variable of a type switch shadows, and an init statement runs first.
package main

import "fmt"

type shape interface{ sides() int }
type tri struct{}

func (tri) sides() int { return 3 }

func main() {
	var x any = "outer"
	switch y := any(tri{}); x := y.(type) {
	case shape:
		fmt.Println(x.sides(), y)
		{
			x := x.sides() * 2
			fmt.Println(x)
		}
	case string:
		fmt.Println("string", x)
	}
	fmt.Println(x)
	switch x := x.(type) {
	default:
		fmt.Printf("%T\n", x)
	}
}
