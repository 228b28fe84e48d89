// The value variable is a copy of the element.
package main

import "fmt"

func main() {
	type t struct {
		n int
		a [2]int
		s []int
	}
	xs := []t{{1, [2]int{1, 1}, []int{1}}, {2, [2]int{2, 2}, []int{2}}}
	for _, x := range xs {
		x.n = 9
		x.a[0] = 9
		x.s[0] = 9
	}
	fmt.Println(xs)
	for i := range xs {
		x := &xs[i]
		x.n *= 10
		x.a[1]++
	}
	fmt.Println(xs)
}
