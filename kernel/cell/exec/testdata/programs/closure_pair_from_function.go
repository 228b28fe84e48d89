// Each call of a maker gives its own captured variable.
package main

import "fmt"

func counter() (func() int, func()) {
	n := 0
	return func() int { n++; return n }, func() { n = 0 }
}

func main() {
	a, resetA := counter()
	b, _ := counter()
	fmt.Println(a(), a(), b())
	resetA()
	fmt.Println(a(), b())
}
