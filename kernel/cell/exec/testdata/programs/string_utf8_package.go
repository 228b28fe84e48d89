// The utf8 package takes runes apart.
package main

import (
	"fmt"
	"unicode/utf8"
)

func main() {
	s := "é世😀"
	for len(s) > 0 {
		r, n := utf8.DecodeRuneInString(s)
		fmt.Printf("%c %d\n", r, n)
		s = s[n:]
	}
	fmt.Println(utf8.RuneLen('世'), utf8.ValidRune(0xD800), string(utf8.AppendRune(nil, 'ñ')))
	r, n := utf8.DecodeRuneInString("\xff")
	fmt.Println(r == utf8.RuneError, n)
}
