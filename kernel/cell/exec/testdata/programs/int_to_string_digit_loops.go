// Digits are taken apart and put together with characters.
package main

import "fmt"

func main() {
	n := -90817
	s, neg := "", n < 0
	if neg {
		n = -n
	}
	for ; n > 0; n /= 10 {
		s = string(rune('0'+n%10)) + s
	}
	if neg {
		s = "-" + s
	}
	back, sign := 0, 1
	for _, c := range s {
		if c == '-' {
			sign = -1
			continue
		}
		back = back*10 + int(c-'0')
	}
	fmt.Println(s, back*sign, s[1]-'0', string(s[1])+"!")
}
