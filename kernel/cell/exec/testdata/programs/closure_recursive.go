// A closure that calls itself needs its variable declared first.
package main

import "fmt"

func main() {
	var fib func(int) int
	fib = func(n int) int {
		if n < 2 {
			return n
		}
		return fib(n-1) + fib(n-2)
	}
	fmt.Println(fib(15))
	old := fib
	fib = func(int) int { return 1000 }
	fmt.Println(old(5), old(1))
}
