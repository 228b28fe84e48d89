// Deferred calls take their arguments at the defer statement, in each turn.
package main

import "fmt"

func f() {
	for _, w := range []string{"a", "b", "c"} {
		defer fmt.Println(w, len(w))
	}
	for i := range 3 {
		defer func(n int) { fmt.Println("n", n) }(i * i)
	}
}

func main() {
	f()
}
