// A function literal may be called where it stands.
package main

import "fmt"

func main() {
	x := func(a, b int) int { return a*b + 1 }(6, 7)
	fmt.Println(x, func() string { return "now" }())
	func() { x = -x }()
	fmt.Println(x)
}
