// Generations of a glider on a torus of arrays.
package main

import "fmt"

type grid [6][6]int

func (g grid) step() (h grid) {
	for r := range g {
		for c := range g[r] {
			n := -g[r][c]
			for d := range 9 {
				n += g[(r+d/3+5)%len(g)][(c+d%3+5)%len(g)]
			}
			if n == 3 || n == 2 && g[r][c] == 1 {
				h[r][c] = 1
			}
		}
	}
	return
}

func main() {
	var g grid
	g[0][1], g[1][2], g[2][0], g[2][1], g[2][2] = 1, 1, 1, 1, 1
	start := g
	for range 4 {
		g = g.step()
	}
	for _, row := range g {
		fmt.Println(row)
	}
	for range 20 {
		g = g.step()
	}
	fmt.Println(g == start)
}
