// The innermost closure reaches variables of all enclosing functions.
package main

import "fmt"

func main() {
	a := 1
	f := func(b int) func(int) func() int {
		return func(c int) func() int {
			a++
			return func() int { b++; return a*100 + b*10 + c }
		}
	}
	g := f(2)
	h, k := g(3), g(4)
	fmt.Println(h(), k(), h(), a)
}
