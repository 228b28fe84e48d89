// All six comparisons on strings with common prefixes and embedded zeros.
package main

import (
	"fmt"
	"strings"
)

func main() {
	xs := []string{"", "a", "ab", "b", "a\x00", "é", "z\xff"}
	for _, a := range xs {
		for _, b := range xs {
			n := 0
			for i, c := range []bool{a < b, a <= b, a == b, a != b, a >= b, a > b} {
				if c {
					n |= 1 << i
				}
			}
			fmt.Printf("%02d ", n)
		}
		fmt.Println(strings.Compare(a, "ab"))
	}
}
