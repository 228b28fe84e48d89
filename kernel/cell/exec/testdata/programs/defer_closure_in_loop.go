// Deferred closures see each turn's own variable and print 2 1 0.
package main

import "fmt"

func f() {
	for i := 0; i < 3; i++ {
		defer func() { fmt.Println(i) }()
	}
}

func main() {
	f()
}
