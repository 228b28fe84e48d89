// Least squares by sums over pairs.
package main

import "fmt"

func main() {
	pts := [][2]float64{{1, 2.1}, {2, 3.9}, {3, 6.2}, {4, 7.8}}
	var n, sx, sy, sxx, sxy float64
	for _, p := range pts {
		n++
		sx += p[0]
		sy += p[1]
		sxx += p[0] * p[0]
		sxy += p[0] * p[1]
	}
	b := (n*sxy - sx*sy) / (n*sxx - sx*sx)
	a := (sy - b*sx) / n
	fmt.Printf("%.6f %.6f\n", a, b)
}
