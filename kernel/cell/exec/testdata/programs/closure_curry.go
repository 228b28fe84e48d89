// Curried functions hold one argument each.
package main

import "fmt"

func main() {
	curry := func(f func(a, b, c int) int) func(int) func(int) func(int) int {
		return func(a int) func(int) func(int) int {
			return func(b int) func(int) int { return func(c int) int { return f(a, b, c) } }
		}
	}
	g := curry(func(a, b, c int) int { return a*100 + b*10 + c })
	h := g(1)
	fmt.Println(h(2)(3), h(4)(5), g(9)(9)(9))
}
