// Arrays of arrays are one value.
package main

import "fmt"

func main() {
	var g [2][3]int
	g[1][2] = 5
	h := g
	h[0] = [3]int{7, 8, 9}
	r := g[1]
	r[0] = 1
	fmt.Println(g, h, r, len(g), len(g[0]), g == [2][3]int{1: {2: 5}})
	for i := range g {
		for j := range g[i] {
			g[i][j] += i*3 + j
		}
	}
	fmt.Println(g)
	pr := &g[0]
	pr[1] = -1
	fmt.Println(g[0], len(pr))
}
