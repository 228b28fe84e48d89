// A generic function calls itself with the same and with swapped parameters.
package main

import "fmt"

func power[T int | float64](x T, n int) T {
	if n == 0 {
		return 1
	}
	if n%2 == 1 {
		return x * power(x, n-1)
	}
	return power(x*x, n/2)
}
func alternate[A, B any](a A, b B, n int) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%v ", a) + alternate(b, a, n-1)
}

func main() {
	fmt.Println(power(3, 13), power(1.5, 5), alternate("x", 1, 5))
}
