// Sets are joined and found with path compression.
package main

import "fmt"

type sets []int

func newSets(n int) sets {
	s := make(sets, n)
	for i := range s {
		s[i] = i
	}
	return s
}
func (s sets) find(x int) int {
	if s[x] != x {
		s[x] = s.find(s[x])
	}
	return s[x]
}
func (s sets) union(a, b int) bool {
	a, b = s.find(a), s.find(b)
	if a == b {
		return false
	}
	s[max(a, b)] = min(a, b)
	return true
}

func main() {
	s := newSets(8)
	fmt.Println(s.union(0, 1), s.union(2, 3), s.union(1, 3), s.union(0, 2), s.union(6, 7))
	groups := map[int][]int{}
	for i := range s {
		r := s.find(i)
		groups[r] = append(groups[r], i)
	}
	fmt.Println(groups)
}
