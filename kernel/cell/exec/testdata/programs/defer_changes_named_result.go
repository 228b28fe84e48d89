// A deferred closure may change a named result after the return statement set it.
package main

import "fmt"

func f(x int) (r int) {
	defer func() { r *= 2 }()
	r = x
	return r + 1
}
func g(x int) int {
	r := x
	defer func() { r *= 2 }()
	return r
}

func main() {
	fmt.Println(f(5), g(5))
}
