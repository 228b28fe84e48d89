// A function that yields pairs may be ranged with two, one or no variables.
package main

import "fmt"

func main() {
	pairs := func(yield func(string, int) bool) {
		_ = yield("a", 1) && yield("b", 2) && yield("c", 3)
	}
	for k, v := range pairs {
		fmt.Print(k, v, " ")
	}
	for k := range pairs {
		fmt.Print(k)
	}
	for _, v := range pairs {
		fmt.Print(v)
	}
	n := 0
	for range pairs {
		n++
	}
	fmt.Println(n)
}
