// A quicksort by two indexes agrees with the sort package.
package main

import (
	"fmt"
	"sort"
)

func quick(xs []int) {
	if len(xs) < 2 {
		return
	}
	p, i, j := xs[len(xs)/2], 0, len(xs)-1
	for i <= j {
		for xs[i] < p {
			i++
		}
		for xs[j] > p {
			j--
		}
		if i <= j {
			xs[i], xs[j] = xs[j], xs[i]
			i++
			j--
		}
	}
	quick(xs[:j+1])
	quick(xs[i:])
}

func main() {
	xs := []int{5, -2, 9, 0, 5, 3, 8, -7, 1}
	quick(xs[2:7])
	fmt.Println(xs)
	quick(xs)
	fmt.Println(xs, sort.IntsAreSorted(xs))
}
