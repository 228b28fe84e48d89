// Run-length coding and decoding by runes.
package main

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

func encode(s string) (out string) {
	rs := []rune(s)
	for i := 0; i < len(rs); {
		j := i
		for j < len(rs) && rs[j] == rs[i] {
			j++
		}
		out += strconv.Itoa(j-i) + string(rs[i])
		i = j
	}
	return
}
func decode(s string) (out string) {
	n := 0
	for _, r := range s {
		if unicode.IsDigit(r) {
			n = n*10 + int(r-'0')
			continue
		}
		out += strings.Repeat(string(r), n)
		n = 0
	}
	return
}

func main() {
	for _, s := range []string{"aaabccc", "", "éé世", strings.Repeat("x", 12)} {
		fmt.Println(encode(s), decode(encode(s)) == s)
	}
}
