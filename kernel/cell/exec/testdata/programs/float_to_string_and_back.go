// Printing and reading back gives the same number.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	for _, x := range []float64{0.1, 1.0 / 3, 1e23, 5e-324, 123456789.125, -0.0001} {
		s := fmt.Sprint(x)
		y, err := strconv.ParseFloat(s, 64)
		fmt.Println(s, x == y, err)
	}
	f := float32(1) / 3
	g, _ := strconv.ParseFloat(fmt.Sprint(f), 32)
	fmt.Println(f, float32(g) == f, g == float64(f))
}
