// A function without values can be ranged over.
package main

import "fmt"

func main() {
	three := func(yield func() bool) {
		for range 3 {
			if !yield() {
				fmt.Println("stopped")
				return
			}
		}
		fmt.Println("exhausted")
	}
	n := 0
	for range three {
		n++
	}
	fmt.Println(n)
	for range three {
		n++
		break
	}
	fmt.Println(n)
}
