// Roman numerals both ways with a table of structs.
package main

import (
	"fmt"
	"strings"
)

var table = []struct {
	v int
	s string
}{{1000, "M"}, {900, "CM"}, {500, "D"}, {400, "CD"}, {100, "C"}, {90, "XC"}, {50, "L"}, {40, "XL"}, {10, "X"}, {9, "IX"}, {5, "V"}, {4, "IV"}, {1, "I"}}

func roman(n int) (s string) {
	for _, t := range table {
		for ; n >= t.v; n -= t.v {
			s += t.s
		}
	}
	return
}
func number(s string) (n int) {
	for _, t := range table {
		for strings.HasPrefix(s, t.s) {
			n += t.v
			s = s[len(t.s):]
		}
	}
	return
}

func main() {
	bad := 0
	for i := 1; i < 400; i++ {
		if number(roman(i)) != i {
			bad++
		}
	}
	fmt.Println(roman(1994), roman(49), number("MMXXVI"), bad)
}
