// Variadic calls with none, some, a spread slice and a spread nil.
package main

import "fmt"

func f(pre string, xs ...int) string { return fmt.Sprintf("%s %v %d %t", pre, xs, len(xs), xs == nil) }

func main() {
	fmt.Println(f("none"))
	fmt.Println(f("one", 1))
	fmt.Println(f("three", 1, 2, 3))
	fmt.Println(f("nil", nil...))
	fmt.Println(f("empty", []int{}...))
	s := []int{4, 5}
	fmt.Println(f("spread", s...))
	fmt.Println(f("part", s[1:]...))
	g := f
	fmt.Println(g("value", 9))
}
