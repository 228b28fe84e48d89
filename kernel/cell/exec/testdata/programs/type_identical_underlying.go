// Values of types with the same structure are assignable if one is unnamed.
package main

import "fmt"

type ints []int
type pred func(int) bool
type m map[string]int

func main() {
	var a ints = []int{1, 2}
	var b []int = a
	b[0] = 10
	var p pred = func(n int) bool { return n > 1 }
	var f func(int) bool = p
	mm := m{"a": 1}
	var n map[string]int = mm
	n["b"] = 2
	fmt.Println(a, f(2), mm, len(ints(b)), append(a, b...))
	fmt.Printf("%T %T\n", append(a, 1), append(b, a...))
}
