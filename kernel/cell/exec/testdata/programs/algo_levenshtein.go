// The edit distance with two rows.
package main

import "fmt"

func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	prev := make([]int, len(t)+1)
	for j := range prev {
		prev[j] = j
	}
	for i, x := range s {
		cur := make([]int, len(t)+1)
		cur[0] = i + 1
		for j, y := range t {
			cost := 1
			if x == y {
				cost = 0
			}
			cur[j+1] = min(prev[j+1]+1, cur[j]+1, prev[j]+cost)
		}
		prev = cur
	}
	return prev[len(t)]
}

func main() {
	fmt.Println(distance("kitten", "sitting"), distance("", "abc"), distance("naïve", "naive"), distance("same", "same"))
}
