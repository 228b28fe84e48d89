// The usual idioms insert and delete elements.
package main

import "fmt"

func main() {
	s := []int{0, 1, 2, 3, 4, 5}
	s = append(s[:2], s[3:]...)
	fmt.Println(s)
	s = append(s[:1], append([]int{10, 11}, s[1:]...)...)
	fmt.Println(s)
	s[1] = s[len(s)-1]
	s = s[:len(s)-1]
	fmt.Println(s)
	k := s[:0]
	for _, x := range s {
		if x%2 == 1 {
			k = append(k, x)
		}
	}
	fmt.Println(k, s)
	for i, j := 0, len(s)-1; i < j; i, j = i+1, j-1 {
		s[i], s[j] = s[j], s[i]
	}
	fmt.Println(s)
}
