// A string grows by concatenation in a loop.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	s := ""
	for i := range 10 {
		s = strconv.Itoa(i) + s + string(rune('a'+i))
	}
	fmt.Println(s, len(s))
	t := ""
	for c := 'a'; c <= 'e'; c++ {
		t += string(c)
	}
	fmt.Println(t)
}
