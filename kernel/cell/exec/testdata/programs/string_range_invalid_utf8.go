// Each invalid byte gives the replacement rune and advances by one.
package main

import (
	"fmt"
	"unicode/utf8"
)

func main() {
	s := "a\xffb\xc3\x28\xe4\xb8c\xed\xa0\x80"
	for i, r := range s {
		fmt.Printf("%d:%U ", i, r)
	}
	fmt.Println()
	fmt.Println(len(s), len([]rune(s)), utf8.ValidString(s), []rune("\xff"), string([]rune("\xff")) == "\uFFFD")
	fmt.Printf("%q %+q %x\n", s, s, s)
}
