// Shortest paths by relaxation of all edges.
package main

import (
	"fmt"
	"math"
)

func main() {
	type edge struct {
		to string
		w  float64
	}
	g := map[string][]edge{"a": {{"b", 7}, {"c", 3}}, "c": {{"b", 1}, {"d", 8}}, "b": {{"d", 2}}, "e": nil}
	dist := map[string]float64{}
	for _, n := range []string{"a", "b", "c", "d", "e"} {
		dist[n] = math.Inf(1)
	}
	dist["a"] = 0
	for changed := true; changed; {
		changed = false
		for n, es := range g {
			for _, e := range es {
				if d := dist[n] + e.w; d < dist[e.to] {
					dist[e.to], changed = d, true
				}
			}
		}
	}
	fmt.Println(dist)
}
