// The product of two float matrices.
package main

import "fmt"

func main() {
	a := [][]float64{{1, 2, 3}, {4, 5, 6}}
	b := [][]float64{{0.5, 1}, {-1, 2}, {3, 0.25}}
	c := make([][]float64, len(a))
	for i := range c {
		c[i] = make([]float64, len(b[0]))
		for j := range c[i] {
			for k, x := range a[i] {
				c[i][j] += x * b[k][j]
			}
		}
	}
	for _, r := range c {
		fmt.Printf("%8.3f\n", r)
	}
}
