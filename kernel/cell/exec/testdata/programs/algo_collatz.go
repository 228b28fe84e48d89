// The longest Collatz run below a thousand with a memo.
package main

import "fmt"

func main() {
	memo := map[int]int{1: 1}
	var length func(int) int
	length = func(n int) int {
		if l, ok := memo[n]; ok {
			return l
		}
		next := n / 2
		if n%2 == 1 {
			next = 3*n + 1
		}
		l := 1 + length(next)
		memo[n] = l
		return l
	}
	best, at := 0, 0
	for n := 1; n < 1000; n++ {
		if l := length(n); l > best {
			best, at = l, n
		}
	}
	fmt.Println(best, at, length(27))
}
