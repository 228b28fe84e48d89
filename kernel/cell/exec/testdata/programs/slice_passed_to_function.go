// A function changes the elements but not the caller's slice header.
package main

import "fmt"

func set(s []int)        { s[0] = 100; s = nil }
func grow(s []int) []int { return append(s, 1) }
func reset(s *[]int)     { *s = append((*s)[:1], 7); (*s)[0]++ }

func main() {
	s := []int{1, 2, 3}
	set(s)
	g := grow(s)
	fmt.Println(s, g)
	reset(&s)
	fmt.Println(s, len(s), g)
}
