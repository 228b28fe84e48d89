// Each clause is a block of its own.
package main

import "fmt"

func main() {
	x := 3
	switch {
	case x > 2:
		x := "clause"
		fmt.Println(x)
		x += "!"
		fallthrough
	case x > 100:
		x := x * 2
		fmt.Println(x)
	}
	fmt.Println(x)
}
