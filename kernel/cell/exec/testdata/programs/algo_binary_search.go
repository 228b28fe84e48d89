// Binary search by loop, found and not found.
package main

import "fmt"

func search(xs []int, x int) (int, bool) {
	lo, hi := 0, len(xs)
	for lo < hi {
		mid := int(uint(lo+hi) >> 1)
		switch {
		case xs[mid] == x:
			return mid, true
		case xs[mid] < x:
			lo = mid + 1
		default:
			hi = mid
		}
	}
	return lo, false
}

func main() {
	xs := []int{2, 3, 5, 7, 11, 13}
	for _, x := range []int{2, 13, 6, 1, 99} {
		fmt.Println(search(xs, x))
	}
	fmt.Println(search(nil, 1))
}
