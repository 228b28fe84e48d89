// Gaussian elimination with pivoting solves a linear system.
package main

import (
	"fmt"
	"math"
)

func solve(a [][]float64, b []float64) []float64 {
	n := len(b)
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r][c]) > math.Abs(a[p][c]) {
				p = r
			}
		}
		a[c], a[p], b[c], b[p] = a[p], a[c], b[p], b[c]
		for r := range n {
			if r == c {
				continue
			}
			f := a[r][c] / a[c][c]
			for k := c; k < n; k++ {
				a[r][k] -= f * a[c][k]
			}
			b[r] -= f * b[c]
		}
	}
	for i := range b {
		b[i] /= a[i][i]
	}
	return b
}

func main() {
	fmt.Printf("%.6f\n", solve([][]float64{{0, 2, 1}, {1, -2, -3}, {-1, 1, 2}}, []float64{-8, 0, 3}))
}
