// After growth the old and the new slice have separate elements.
package main

import "fmt"

func main() {
	a := []int{1, 2, 3}
	b := append(a, 4)
	b[0] = 100
	fmt.Println(a, b)
	var hist [][]int
	s := []int{}
	for i := range 5 {
		s = append(s[:len(s):len(s)], i)
		hist = append(hist, s)
	}
	s[0] = -1
	fmt.Println(hist)
}
