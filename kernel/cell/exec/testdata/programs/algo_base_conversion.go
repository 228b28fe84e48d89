// Numbers in any base by repeated division.
package main

import (
	"fmt"
	"strconv"
)

func toBase(n uint, b uint) string {
	const digits = "0123456789abcdefghijklmnopqrstuvwxyz"
	if n == 0 {
		return "0"
	}
	s := ""
	for ; n > 0; n /= b {
		s = string(digits[n%b]) + s
	}
	return s
}
func fromBase(s string, b int) (n int) {
	for _, c := range []byte(s) {
		d := int(c - '0')
		if c >= 'a' {
			d = int(c-'a') + 10
		}
		n = n*b + d
	}
	return
}

func main() {
	for _, b := range []uint{2, 7, 16, 36} {
		s := toBase(123456, b)
		fmt.Println(b, s, fromBase(s, int(b)), s == strconv.FormatUint(123456, int(b)))
	}
}
