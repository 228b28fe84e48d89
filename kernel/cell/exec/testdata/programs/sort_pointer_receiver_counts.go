// A sorter on a pointer keeps its own counters.
package main

import (
	"fmt"
	"sort"
)

type sorter struct {
	xs    []int
	swaps int
	less  func(a, b int) bool
}

func (s *sorter) Len() int           { return len(s.xs) }
func (s *sorter) Less(i, j int) bool { return s.less(s.xs[i], s.xs[j]) }
func (s *sorter) Swap(i, j int)      { s.xs[i], s.xs[j] = s.xs[j], s.xs[i]; s.swaps++ }

func main() {
	s := &sorter{xs: []int{2, 1}, less: func(a, b int) bool { return a < b }}
	sort.Sort(s)
	fmt.Println(s.xs, s.swaps)
	s.less = func(a, b int) bool { return a > b }
	sort.Sort(s)
	fmt.Println(s.xs, s.swaps)
}
