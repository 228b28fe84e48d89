// A memo in a captured map answers the second call without computing.
package main

import "fmt"

func main() {
	calls := 0
	memo := map[int]int{}
	var fib func(int) int
	fib = func(n int) int {
		if v, ok := memo[n]; ok {
			return v
		}
		calls++
		if n < 2 {
			return n
		}
		r := fib(n-1) + fib(n-2)
		memo[n] = r
		return r
	}
	fmt.Println(fib(50))
	fmt.Println(calls, len(memo))
}
