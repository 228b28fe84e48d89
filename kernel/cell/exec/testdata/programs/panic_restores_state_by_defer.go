// Deferred functions restore state when a panic passes through.
package main

import (
	"fmt"
	"strconv"
)

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	depth, trace := 0, []string{}
	var rec func(n int)
	rec = func(n int) {
		depth++
		defer func() { depth--; trace = append(trace, strconv.Itoa(n)) }()
		xs := []int{10, 20, 30}
		_ = xs[n]
		rec(n + 1)
	}
	try("deep", func() { rec(0) })
	fmt.Println(depth, trace)
}
