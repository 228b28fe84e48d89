// A panic in a deferred function replaces the one under way.
package main

import "fmt"

func f() {
	defer func() { fmt.Println("got", recover()) }()
	defer func() { panic("second") }()
	panic("first")
}

func main() {
	f()
}
