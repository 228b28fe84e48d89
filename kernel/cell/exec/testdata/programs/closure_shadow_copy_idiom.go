// The x := x idiom makes a second variable with the same name.
package main

import "fmt"

func main() {
	x := 1
	var f func() int
	{
		x := x
		f = func() int { x++; return x }
	}
	fmt.Println(f(), f(), x)
}
