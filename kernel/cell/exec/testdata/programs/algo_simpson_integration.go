// Simpson's rule integrates functions given as values.
package main

import (
	"fmt"
	"math"
)

func simpson(f func(float64) float64, a, b float64, n int) float64 {
	h := (b - a) / float64(n)
	s := f(a) + f(b)
	for i := 1; i < n; i++ {
		w := 4.0
		if i%2 == 0 {
			w = 2
		}
		s += w * f(a+float64(i)*h)
	}
	return s * h / 3
}

func main() {
	fmt.Printf("%.6f %.6f %.6f\n", simpson(math.Sin, 0, math.Pi, 100), simpson(func(x float64) float64 { return x * x }, 0, 3, 10), simpson(math.Exp, 0, 1, 50))
}
