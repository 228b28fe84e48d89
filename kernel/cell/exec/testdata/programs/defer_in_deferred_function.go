// A deferred function may defer calls of its own.
package main

import "fmt"

func f() {
	defer fmt.Println("outer 1")
	defer func() {
		defer fmt.Println("inner 1")
		defer fmt.Println("inner 2")
		fmt.Println("in deferred")
	}()
	fmt.Println("body")
}

func main() {
	f()
}
