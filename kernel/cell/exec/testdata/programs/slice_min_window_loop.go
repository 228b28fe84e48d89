// Two indexes walk a slice with subslices taken in each turn.
package main

import "fmt"

func main() {
	xs := []int{2, 3, 1, 2, 4, 3}
	best, lo, sum := []int(nil), 0, 0
	for hi, x := range xs {
		sum += x
		for sum >= 7 {
			if w := xs[lo : hi+1]; best == nil || len(w) < len(best) {
				best = w
			}
			sum -= xs[lo]
			lo++
		}
	}
	fmt.Println(best, lo, sum)
	best[0] = 40
	fmt.Println(xs)
}
