// A closure sees the variable's latest value, not the value at capture.
package main

import "fmt"

func main() {
	x := "old"
	f := func() string { return x }
	y := x
	g := func() string { return y }
	x = "new"
	fmt.Println(f(), g())
}
