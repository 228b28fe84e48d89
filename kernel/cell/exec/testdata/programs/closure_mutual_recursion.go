// Two local closures call each other.
package main

import "fmt"

func main() {
	var even, odd func(uint) bool
	even = func(n uint) bool {
		if n == 0 {
			return true
		}
		return odd(n - 1)
	}
	odd = func(n uint) bool {
		if n == 0 {
			return false
		}
		return even(n - 1)
	}
	fmt.Println(even(10), odd(10), even(7), odd(7))
}
