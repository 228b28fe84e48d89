// A recursive function type ties the knot without a named recursion.
package main

import "fmt"

type self func(self) func(int) int

func main() {
	fix := func(f func(func(int) int) func(int) int) func(int) int {
		g := func(x self) func(int) int { return f(func(n int) int { return x(x)(n) }) }
		return g(g)
	}
	fact := fix(func(rec func(int) int) func(int) int {
		return func(n int) int {
			if n <= 1 {
				return 1
			}
			return n * rec(n-1)
		}
	})
	fmt.Println(fact(10))
}
