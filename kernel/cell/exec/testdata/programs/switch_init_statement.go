// A switch may have an init statement whose variable lives in it.
package main

import "fmt"

func main() {
	x := 1
	switch x := x * 5; x {
	case 1:
		fmt.Println("outer")
	case 5:
		x++
		fmt.Println("inner", x)
	}
	fmt.Println(x)
	switch x := "s"; {
	case len(x) == 1:
		fmt.Println(x)
	}
	switch y := x; z := any(y).(type) {
	case int:
		fmt.Println("int", z+y)
	}
	switch x++; {
	default:
		fmt.Println(x)
	}
}
