// The length of a ranged slice is taken once.
package main

import "fmt"

func main() {
	s := []int{1, 2, 3}
	for i, v := range s {
		s = append(s, v*10)
		if i == 0 {
			s[1] = 99
		}
	}
	fmt.Println(s)
	t := []int{1, 2, 3}
	for i, v := range t {
		t = t[:1]
		fmt.Print(i, v, " ")
	}
	fmt.Println(t)
}
