// Slices, maps, functions and interfaces may refer to themselves.
package main

import "fmt"

type tree []tree

func (t tree) count() int {
	n := 1
	for _, c := range t {
		n += c.count()
	}
	return n
}

type dir map[string]dir

func (d dir) depth() int {
	n := 0
	for _, c := range d {
		n = max(n, c.depth())
	}
	return n + 1
}

type fn func(int) fn

func main() {
	fmt.Println(tree{{}, {{}, {}}}.count(), tree{{}, nil}, dir{"a": {"b": {}}, "c": nil}.depth(), dir{"a": {"b": nil}})
	sum := 0
	var f fn
	f = func(n int) fn { sum += n; return f }
	f(1)(2)(3)
	fmt.Println(sum)
}
