// A long switch on strings finds each case and the default.
package main

import (
	"fmt"
	"strings"
)

func main() {
	f := func(s string) int {
		switch s {
		case "zero", "nil", "none":
			return 0
		case "one":
			return 1
		case "two":
			return 2
		case "three":
			return 3
		case "", " ":
			return -1
		case "é":
			return 5
		}
		return 99
	}
	for _, s := range strings.Split("zero,none,one,two,three,,é,e,ones, ", ",") {
		fmt.Print(f(s), " ")
	}
	fmt.Println()
}
