// A defer in the body belongs to the enclosing function.
package main

import "fmt"

func two(yield func(int) bool) { defer fmt.Println("iterator done"); _ = yield(1) && yield(2) }
func f() (s string) {
	for i := range two {
		defer func() { s += fmt.Sprintf("<%d>", i); fmt.Println("deferred", i) }()
	}
	fmt.Println("loop done")
	return "r"
}

func main() {
	fmt.Println(f())
}
