// Addition of long numbers held in slices of digits.
package main

import (
	"fmt"
	"strconv"
)

func add(a, b []int) (c []int) {
	carry := 0
	for i := 0; i < len(a) || i < len(b) || carry > 0; i++ {
		d := carry
		if i < len(a) {
			d += a[i]
		}
		if i < len(b) {
			d += b[i]
		}
		c = append(c, d%10)
		carry = d / 10
	}
	return
}
func text(a []int) (s string) {
	for _, d := range a {
		s = strconv.Itoa(d) + s
	}
	return
}

func main() {
	a, b := []int{1}, []int{1}
	for range 148 {
		a, b = b, add(a, b)
	}
	fmt.Println(text(a))
	fmt.Println(text(b), len(b))
}
