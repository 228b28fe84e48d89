// A nil deferred function panics when it runs, not where it is deferred.
package main

import "fmt"

func f() {
	defer func() { fmt.Println("recovered:", recover()) }()
	var g func()
	defer g()
	fmt.Println("body runs")
}

func main() {
	f()
}
