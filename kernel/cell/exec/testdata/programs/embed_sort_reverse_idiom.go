// An embedded interface overridden in one method reverses a sort.
package main

import (
	"fmt"
	"sort"
)

type rev struct{ sort.Interface }

func (r rev) Less(i, j int) bool { return r.Interface.Less(j, i) }

func main() {
	xs := []int{3, 1, 2, 5, 4}
	sort.Sort(rev{sort.IntSlice(xs)})
	fmt.Println(xs)
	sort.Sort(sort.Reverse(rev{sort.IntSlice(xs)}))
	fmt.Println(xs)
}
