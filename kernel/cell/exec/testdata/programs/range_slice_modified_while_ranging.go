// Writes to later elements are seen, a fresh slice is not.
package main

import "fmt"

func main() {
	s := []int{1, 2, 3, 4}
	for i, v := range s {
		if i+1 < len(s) {
			s[i+1] += v
		}
	}
	fmt.Println(s)
	t := []int{1, 2, 3}
	for i, v := range t {
		t = []int{7, 8, 9}
		fmt.Printf("%d:%d ", i, v)
	}
	fmt.Println(t)
	n := 0
	for range append(s, s...) {
		n++
	}
	fmt.Println(n)
}
