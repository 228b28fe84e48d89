// Function values are compared with nil only and passed around.
package main

import "fmt"

func add(a, b int) int { return a + b }

type binop func(int, int) int

func apply(f binop, a, b int) int {
	if f == nil {
		return -1
	}
	return f(a, b)
}

func main() {
	var f binop
	fmt.Println(f == nil, apply(f, 1, 2), apply(add, 1, 2), apply(func(a, b int) int { return a * b }, 3, 4))
	f = add
	g := (func(int, int) int)(f)
	fmt.Println(f != nil, g(5, 6), binop(add)(7, 8))
	fs := [...]binop{add, nil, f}
	fmt.Println(fs[1] == nil, fs[2](1, 1))
}
