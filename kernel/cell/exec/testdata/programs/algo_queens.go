// The six queens puzzle by backtracking.
package main

import "fmt"

func main() {
	n, count := 6, 0
	col := make([]int, 0, n)
	var first []int
	ok := func(c int) bool {
		for r, x := range col {
			d := len(col) - r
			if x == c || x-c == d || c-x == d {
				return false
			}
		}
		return true
	}
	var place func()
	place = func() {
		if len(col) == n {
			count++
			if first == nil {
				first = append(first, col...)
			}
			return
		}
		for c := range n {
			if !ok(c) {
				continue
			}
			col = append(col, c)
			place()
			col = col[:len(col)-1]
		}
	}
	place()
	fmt.Println(count, first)
}
