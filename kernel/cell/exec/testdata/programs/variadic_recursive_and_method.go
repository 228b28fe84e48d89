// Variadic methods, closures and recursion.
package main

import (
	"fmt"
	"strings"
)

type t struct{ sum int }

func (x *t) add(ns ...int) *t {
	for _, n := range ns {
		x.sum += n
	}
	return x
}
func maxOf(x int, rest ...int) int {
	if len(rest) == 0 {
		return x
	}
	if m := maxOf(rest[0], rest[1:]...); m > x {
		return m
	}
	return x
}

func main() {
	v := &t{}
	fmt.Println(v.add(1, 2).add().add([]int{3, 4}...).sum, maxOf(3, 9, 2), maxOf(5))
	add := v.add
	add(10)
	(*t).add(v, 100, 200)
	join := func(sep string, parts ...string) string { return strings.Join(parts, sep) }
	fmt.Println(v.sum, join("-"), join("-", "a", "b"))
}
