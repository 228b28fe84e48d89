// A plain discrete Fourier transform with separate real and imaginary parts.
package main

import (
	"fmt"
	"math"
)

func dft(xs []float64) (re, im []float64) {
	n := len(xs)
	for k := range n {
		var a, b float64
		for t, x := range xs {
			phi := 2 * math.Pi * float64(k*t) / float64(n)
			a += x * math.Cos(phi)
			b -= x * math.Sin(phi)
		}
		re, im = append(re, a), append(im, b)
	}
	return
}

func main() {
	xs := make([]float64, 8)
	for i := range xs {
		xs[i] = 1 + 2*math.Cos(2*math.Pi*float64(i)/8) + 0.5*math.Sin(4*math.Pi*float64(i)/8)
	}
	re, im := dft(xs)
	for k := range re {
		fmt.Printf("%d %.6f\n", k, math.Hypot(re[k], im[k]))
	}
}
