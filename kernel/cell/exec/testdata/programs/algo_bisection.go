// Bisection finds the root of a function given as a closure.
package main

import (
	"errors"
	"fmt"
	"math"
)

func bisect(f func(float64) float64, lo, hi, tol float64) (float64, error) {
	if f(lo)*f(hi) > 0 {
		return 0, errors.New("no change of sign")
	}
	for hi-lo > tol {
		mid := (lo + hi) / 2
		if f(lo)*f(mid) <= 0 {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2, nil
}

func main() {
	k := 2.0
	r, err := bisect(func(x float64) float64 { return x*x*x - k*x - 5 }, 2, 3, 1e-10)
	fmt.Printf("%.6f %v\n", r, err)
	_, err = bisect(math.Exp, 0, 1, 1e-3)
	fmt.Println(err)
}
