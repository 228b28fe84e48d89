// Width and precision may come from arguments.
package main

import "fmt"

func main() {
	fmt.Printf("%*d|%-*d|%.*f|%*.*f\n", 5, 42, 5, 42, 2, 3.14159, 8, 3, 2.71828)
	fmt.Printf("%[2]d %[1]d|%[1]d %[1]x|%[3]*.[2]*[1]f\n", 1, 2, 6)
	fmt.Printf("%[1]q %[1]v %[1]T\n", "x")
}
