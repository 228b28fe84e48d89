// Top-level functions call each other regardless of their order.
package main

import "fmt"

func isEven(n int) bool {
	if n == 0 {
		return true
	}
	return isOdd(n - 1)
}
func hof(n int) int {
	if n == 0 {
		return 1
	}
	return n - hom(hof(n-1))
}
func hom(n int) int {
	if n == 0 {
		return 0
	}
	return n - hof(hom(n-1))
}
func isOdd(n int) bool {
	if n == 0 {
		return false
	}
	return isEven(n - 1)
}

func main() {
	fmt.Println(isEven(100), isOdd(7), isOdd(10))
	for i := range 10 {
		fmt.Print(hof(i), hom(i), " ")
	}
	fmt.Println()
}
