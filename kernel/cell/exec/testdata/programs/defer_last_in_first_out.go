// Deferred calls run in the reverse order of their statements.
package main

import "fmt"

func f() {
	defer fmt.Println("one")
	defer fmt.Println("two")
	{
		defer fmt.Println("three, at the end of the function, not of the block")
	}
	fmt.Println("body")
}

func main() {
	f()
	fmt.Println("after")
}
