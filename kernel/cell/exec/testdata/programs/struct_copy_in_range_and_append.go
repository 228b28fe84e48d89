// Structs are copied on append and by the range variable.
package main

import (
	"fmt"
	"strconv"
)

func main() {
	type t struct {
		n    int
		tags []string
	}
	x := t{1, []string{"a"}}
	xs := append([]t{}, x, x)
	x.n = 2
	xs[0].tags[0] = "z"
	xs[1].tags = append(xs[1].tags, "own")
	for i, y := range xs {
		y.n += 10
		xs[i].tags = append(y.tags, strconv.Itoa(i))
	}
	fmt.Println(x, xs)
	ys := make([]t, 1)
	copy(ys, xs)
	ys[0].n = -1
	fmt.Println(xs[0].n, ys[0])
}
