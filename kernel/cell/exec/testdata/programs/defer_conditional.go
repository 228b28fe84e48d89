// A defer statement counts only if it is reached.
package main

import (
	"fmt"
	"strconv"
)

func f(n int) (s string) {
	if n > 0 {
		defer func() { s += " positive" }()
	}
	if n > 10 {
		defer func() { s += " big" }()
	}
	return strconv.Itoa(n)
}

func main() {
	fmt.Println(f(-1))
	fmt.Println(f(5))
	fmt.Println(f(50))
}
