// Iterators of the strings package drive range loops.
package main

import (
	"fmt"
	"strings"
)

func main() {
	n := 0
	for part := range strings.SplitSeq("a,b,c,d", ",") {
		if part == "c" {
			break
		}
		n++
		fmt.Print(part, " ")
	}
	for w := range strings.FieldsSeq(" x  yy ") {
		fmt.Print(len(w), w, " ")
	}
	for line := range strings.Lines("l1\nl2\n") {
		fmt.Printf("%q ", line)
	}
	fmt.Println(n)
	find := func(s, w string) bool {
		for x := range strings.FieldsSeq(s) {
			if x == w {
				return true
			}
		}
		return false
	}
	fmt.Println(find("a b c", "b"), find("a b c", "z"))
}
