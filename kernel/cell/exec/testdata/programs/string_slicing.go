// Slices of strings cut at byte positions.
package main

import "fmt"

func main() {
	s := "hello, 世界"
	fmt.Println(s[:5], s[7:], s[7:10], s[:], s[5:5] == "", len(s[8:]))
	t := s[1:4][1:]
	fmt.Println(t, s[len(s)-3:])
	fmt.Printf("%q\n", s[8:10])
}
