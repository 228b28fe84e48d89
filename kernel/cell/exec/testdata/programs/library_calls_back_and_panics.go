// A panic in a callback passes through the library function.
package main

import (
	"fmt"
	"sort"
	"strings"
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
	try("map", func() {
		fmt.Println(strings.Map(func(r rune) rune {
			if r == 'c' {
				panic("on c")
			}
			return r
		}, "abcd"))
	})
	try("sort", func() {
		xs := []int{3, 2, 1}
		sort.Slice(xs, func(i, j int) bool { return xs[i+5] < xs[j] })
	})
	n := 0
	try("search", func() { sort.Search(10, func(i int) bool { n++; return 1/(i-i) > 0 }) })
	fmt.Println("calls", n)
	try("repeat", func() { fmt.Println(strings.Repeat("x", n-2)) })
}
