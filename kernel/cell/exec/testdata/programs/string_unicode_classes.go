// The unicode package classifies runes.
package main

import (
	"fmt"
	"unicode"
)

func main() {
	for _, r := range "aZ9 _é世\t" {
		fmt.Printf("%q %t %t %t %t\n", r, unicode.IsLetter(r), unicode.IsDigit(r), unicode.IsSpace(r), unicode.IsUpper(r))
	}
	fmt.Println(string(unicode.ToUpper('ß')), string(unicode.ToLower('Ä')))
}
