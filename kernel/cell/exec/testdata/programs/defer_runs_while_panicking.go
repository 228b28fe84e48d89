// All deferred calls of all frames run while a panic passes.
package main

import "fmt"

func a() { defer fmt.Println("a"); b(); fmt.Println("not a") }
func b() { defer fmt.Println("b"); c(); fmt.Println("not b") }
func c() { defer fmt.Println("c"); panic("stop") }

func main() {
	defer func() { fmt.Println(recover()) }()
	a()
}
