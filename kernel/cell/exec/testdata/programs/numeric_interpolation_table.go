// Values between the rows of a table are interpolated by binary search.
package main

import (
	"fmt"
	"sort"
)

func main() {
	type row struct{ x, y float64 }
	table := []row{{0, 1}, {10, 2.5}, {25, 2}, {100, 8}}
	at := func(x float64) (float64, error) {
		i := sort.Search(len(table), func(i int) bool { return table[i].x >= x })
		switch {
		case i == len(table), i == 0 && x < table[0].x:
			return 0, fmt.Errorf("%g is outside %g to %g", x, table[0].x, table[len(table)-1].x)
		case table[i].x == x:
			return table[i].y, nil
		}
		a, b := table[i-1], table[i]
		return a.y + (b.y-a.y)*(x-a.x)/(b.x-a.x), nil
	}
	for _, x := range []float64{0, 5, 10, 17.5, 100, -1, 101} {
		fmt.Println(at(x))
	}
}
