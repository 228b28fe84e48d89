// Recover called by a deferred named function works.
package main

import "fmt"

func rescue() { fmt.Println("rescued", recover()) }
func f() {
	defer rescue()
	panic(42)
}

func main() {
	f()
	fmt.Println(recover())
}
