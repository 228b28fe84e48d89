// Functions of the program are called back by the strings package.
package main

import (
	"fmt"
	"strings"
	"unicode"
)

func main() {
	rot := func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return 'a' + (r-'a'+13)%26
		case r == ' ':
			return -1
		}
		return r
	}
	fmt.Println(strings.Map(rot, "hello world"), strings.Map(rot, "uryyb"))
	fmt.Println(strings.FieldsFunc("a1b22c", unicode.IsDigit), strings.IndexFunc("abcÀ", unicode.IsUpper))
	k := 0
	t := strings.TrimFunc("xxyxx", func(r rune) bool { k++; return r == 'x' })
	fmt.Println(t, k)
}
