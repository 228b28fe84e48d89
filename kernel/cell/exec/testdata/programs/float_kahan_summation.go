// Compensated summation keeps what plain summation loses.
package main

import "fmt"

func main() {
	xs := []float64{1e16, 1, 1, 1, 1, -1e16}
	plain, sum, comp := 0.0, 0.0, 0.0
	for _, x := range xs {
		plain += x
		y := x - comp
		t := sum + y
		comp = (t - sum) - y
		sum = t
	}
	fmt.Println(plain, sum, sum == 4)
}
