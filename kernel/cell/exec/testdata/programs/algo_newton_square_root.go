// Newton's iteration for the square root converges.
package main

import (
	"fmt"
	"math"
)

func main() {
	sqrt := func(x float64) (float64, int) {
		z, n := x, 0
		for {
			next := z - (z*z-x)/(2*z)
			n++
			if d := next - z; d < 1e-12 && d > -1e-12 {
				return next, n
			}
			z = next
		}
	}
	for _, x := range []float64{2, 100, 0.25} {
		z, n := sqrt(x)
		fmt.Printf("%.6f %t %t\n", z, n < 20, math.Abs(z*z-x) < 1e-9)
	}
}
