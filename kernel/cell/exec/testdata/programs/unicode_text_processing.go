// Words of several scripts are counted, capitalised and cut.
package main

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

func main() {
	s := "Ångström größer ΩMEGA 東京 naïve"
	for _, w := range strings.Fields(s) {
		r, n := utf8.DecodeRuneInString(w)
		last, _ := utf8.DecodeLastRuneInString(w)
		fmt.Printf("%s %d %d %c%s %c\n", w, len(w), utf8.RuneCountInString(w), unicode.ToUpper(r), strings.ToLower(w[n:]), last)
	}
	fmt.Println(strings.ToUpper(s), strings.IndexRune(s, '東'), strings.ContainsAny(s, "ß"), len([]rune(s)))
}
