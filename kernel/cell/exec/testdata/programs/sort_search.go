// Binary search calls the closure and finds the first true index.
package main

import (
	"fmt"
	"sort"
)

func main() {
	xs := []int{1, 3, 5, 7, 9, 11}
	calls := 0
	for _, x := range []int{0, 5, 6, 11, 12} {
		i := sort.Search(len(xs), func(i int) bool { calls++; return xs[i] >= x })
		fmt.Printf("%d:%d:%t ", x, i, i < len(xs) && xs[i] == x)
	}
	fmt.Println(calls < 25, sort.SearchStrings([]string{"a", "c"}, "b"))
	i, ok := sort.Find(len(xs), func(i int) int { return 7 - xs[i] })
	fmt.Println(i, ok)
}
