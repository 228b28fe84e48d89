// The function value itself is taken at the defer statement.
package main

import "fmt"

func main() {
	f := func() { fmt.Println("first") }
	defer f()
	f = func() { fmt.Println("second") }
	f()
}
