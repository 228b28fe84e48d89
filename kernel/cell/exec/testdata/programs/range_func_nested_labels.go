// Labels leave and continue outer loops across nested ranged functions.
package main

import "fmt"

func upto(n int, name string) func(func(int) bool) {
	return func(yield func(int) bool) {
		defer fmt.Println("end", name)
		for i := range n {
			if !yield(i) {
				return
			}
		}
	}
}

func main() {
outer:
	for i := range upto(4, "outer") {
		for j := range upto(4, "inner") {
			if j == 1 && i == 0 {
				continue outer
			}
			if i == 2 {
				break outer
			}
			if j == 2 {
				break
			}
			fmt.Println(i, j)
		}
	}
}
