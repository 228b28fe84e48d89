// A factorial of many digits by multiplying a slice of digits.
package main

import "fmt"

func main() {
	digits := []int{1}
	for n := 2; n <= 30; n++ {
		carry := 0
		for i := range digits {
			carry += digits[i] * n
			digits[i] = carry % 10
			carry /= 10
		}
		for ; carry > 0; carry /= 10 {
			digits = append(digits, carry%10)
		}
	}
	s := ""
	for _, d := range digits {
		s = string(rune('0'+d)) + s
	}
	fmt.Println(s, len(s))
}
