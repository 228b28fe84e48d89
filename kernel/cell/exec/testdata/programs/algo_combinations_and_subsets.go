// Subsets by the bits of a counter and combinations by recursion.
package main

import "fmt"

func main() {
	xs := []string{"a", "b", "c"}
	for mask := range 1 << len(xs) {
		s := "{"
		for i, x := range xs {
			if mask>>i&1 == 1 {
				s += x
			}
		}
		fmt.Print(s, "} ")
	}
	fmt.Println()
	var comb func(start, k int, cur []int)
	comb = func(start, k int, cur []int) {
		if k == 0 {
			fmt.Print(cur)
			return
		}
		for i := start; i <= 5-k; i++ {
			comb(i+1, k-1, append(cur[:len(cur):len(cur)], i))
		}
	}
	comb(0, 3, nil)
	fmt.Println()
}
