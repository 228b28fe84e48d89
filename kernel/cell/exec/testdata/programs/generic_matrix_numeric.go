// Arithmetic over a type parameter for matrices.
package main

import "fmt"

type num interface{ ~int | ~float64 }
type matrix[T num] [][]T

func (a matrix[T]) mul(b matrix[T]) matrix[T] {
	c := make(matrix[T], len(a))
	for i := range a {
		c[i] = make([]T, len(b[0]))
		for j := range c[i] {
			for k := range b {
				c[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return c
}

func main() {
	a := matrix[int]{{1, 2}, {3, 4}}
	b := matrix[float64]{{0.5, 0}, {0, 2}}
	fmt.Println(a.mul(a), b.mul(b), a.mul(matrix[int]{{1}, {1}}))
}
