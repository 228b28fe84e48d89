// The operands of a slice expression are evaluated from left to right.
package main

import "fmt"

func main() {
	f := func(name string, n int) int { fmt.Print(name, " "); return n }
	s := func() []int { fmt.Print("s "); return []int{0, 1, 2, 3, 4} }
	fmt.Println(s()[f("lo", 1):f("hi", 3):f("max", 4)])
	fmt.Println(s()[f("i", 2)])
}
