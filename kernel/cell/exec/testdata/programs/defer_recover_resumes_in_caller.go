// After a recovery the caller goes on behind the call.
package main

import "fmt"

func main() {
	steps := []string{}
	inner := func() {
		defer func() { recover(); steps = append(steps, "recovered") }()
		steps = append(steps, "inner")
		var m map[int]int
		m[1] = 1
		steps = append(steps, "never")
	}
	for range 2 {
		inner()
		steps = append(steps, "after")
	}
	fmt.Println(steps)
}
