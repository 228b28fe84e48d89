// A default placed first falls through into the next case.
package main

import "fmt"

func main() {
	x := 0
	switch 7 {
	default:
		x = 10
		fallthrough
	case 2:
		x++
	}
	fmt.Println(x)
	switch x {
	default:
		fmt.Println("not this")
	case 11:
		fmt.Println("eleven")
	}
}
