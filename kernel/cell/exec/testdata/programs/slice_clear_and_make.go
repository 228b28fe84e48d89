// Clear zeroes elements and keeps the length.
package main

import "fmt"

func main() {
	s := []string{"a", "b", "c"}
	t := s[1:]
	clear(t)
	fmt.Printf("%q %d\n", s, len(s))
	m := make([]int, 2, 5)
	m = m[:4]
	fmt.Println(m, len(m), len(make([]bool, 0)))
	clear(m[:0])
	var n []int
	clear(n)
	fmt.Println(n == nil)
}
