// A function that yields one value drives the loop and its break.
package main

import "fmt"

func count(from, to int) func(func(int) bool) {
	return func(yield func(int) bool) {
		for i := from; i < to; i++ {
			if !yield(i) {
				fmt.Println("cut at", i)
				return
			}
		}
	}
}

func main() {
	for i := range count(0, 3) {
		fmt.Print(i, " ")
	}
	fmt.Println()
	for i := range count(5, 100) {
		if i%2 == 0 {
			continue
		}
		if i > 8 {
			break
		}
		fmt.Println(i)
	}
	var last int
	for last = range count(1, 4) {
	}
	fmt.Println(last)
}
