// The sort package orders slices in place.
package main

import (
	"fmt"
	"sort"
)

func main() {
	a := []int{3, 1, 2}
	b := []string{"b", "a", "C"}
	c := []float64{2.5, -1, 0}
	sort.Ints(a)
	sort.Strings(b)
	sort.Float64s(c)
	fmt.Println(a, b, c, sort.IntsAreSorted(a), sort.SearchInts(a, 2))
	sort.Sort(sort.Reverse(sort.StringSlice(b)))
	fmt.Println(b, sort.SliceIsSorted(b, func(i, j int) bool { return b[i] > b[j] }))
}
