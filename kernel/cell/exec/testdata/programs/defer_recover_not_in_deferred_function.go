// Recover in a function called by the deferred function does nothing.
package main

import "fmt"

func helper() any { return recover() }
func f() {
	defer func() { fmt.Println("outer", recover()) }()
	defer func() { fmt.Println("helper", helper()) }()
	panic("p")
}

func main() {
	f()
}
