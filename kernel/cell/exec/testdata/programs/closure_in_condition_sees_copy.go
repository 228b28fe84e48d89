// A closure made in the loop's post statement belongs to the next turn's variable.
package main

import "fmt"

func main() {
	var fs []func() int
	add := func(f func() int) bool { fs = append(fs, f); return true }
	for i := 0; i < 3; add(func() int { return i * 100 }) {
		i++
	}
	for _, f := range fs {
		fmt.Println(f())
	}
}
