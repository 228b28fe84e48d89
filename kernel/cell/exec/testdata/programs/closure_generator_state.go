// A generator closure keeps two captured variables in step.
package main

import "fmt"

func main() {
	gen := func() func() int {
		a, b := 0, 1
		return func() int { defer func() { a, b = b, a+b }(); return a }
	}
	f := gen()
	for range 10 {
		fmt.Printf("%d ", f())
	}
	fmt.Println()
}
