// Index arithmetic on nested slices.
package main

import "fmt"

func main() {
	m := [][]int{{1, 2, 3}, {4, 5, 6}}
	t := make([][]int, len(m[0]))
	for i := range t {
		for j := range m {
			t[i] = append(t[i], m[j][i])
		}
	}
	fmt.Println(t)
	s := []int{1, 2, 3, 4, 5}
	s = append(s[2:], s[:2]...)
	fmt.Println(s, len(t))
}
