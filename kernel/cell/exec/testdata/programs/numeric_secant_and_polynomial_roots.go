// The secant method with two values carried through a loop.
package main

import (
	"fmt"
	"math"
)

func main() {
	secant := func(f func(float64) float64, a, b float64) (float64, int) {
		fa, fb := f(a), f(b)
		for n := 1; n < 50; n++ {
			c := b - fb*(b-a)/(fb-fa)
			if math.Abs(c-b) < 1e-12 {
				return c, n
			}
			a, fa, b, fb = b, fb, c, f(c)
		}
		return math.NaN(), 50
	}
	r, _ := secant(func(x float64) float64 { return math.Cos(x) - x }, 0, 1)
	fmt.Printf("%.9f\n", r)
	k := 3.0
	r, _ = secant(func(x float64) float64 { return x*x - k }, 1, 2)
	fmt.Printf("%.9f %.9f\n", r, math.Sqrt(k))
}
