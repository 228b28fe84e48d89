// The variable of a range over an integer is fresh in each turn.
package main

import "fmt"

func main() {
	var fs []func() int
	for i := range 4 {
		fs = append(fs, func() int { i *= 2; return i })
	}
	for _, f := range fs {
		fmt.Println(f(), f())
	}
}
