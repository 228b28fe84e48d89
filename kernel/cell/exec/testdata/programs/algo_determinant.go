// The determinant by expansion over minors.
package main

import "fmt"

func det(m [][]int) int {
	if len(m) == 1 {
		return m[0][0]
	}
	d, sign := 0, 1
	for c, x := range m[0] {
		var minor [][]int
		for _, row := range m[1:] {
			r := append(append([]int{}, row[:c]...), row[c+1:]...)
			minor = append(minor, r)
		}
		d += sign * x * det(minor)
		sign = -sign
	}
	return d
}

func main() {
	m := [][]int{{2, 0, 1, 3}, {1, 1, 0, -2}, {4, -1, 5, 0}, {0, 2, 1, 1}}
	fmt.Println(det(m), det([][]int{{7}}), det([][]int{{1, 2}, {3, 4}}), m)
}
