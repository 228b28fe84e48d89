// All forms with left-out variables count the same.
package main

import "fmt"

func main() {
	s := []int{1, 2, 3}
	n := 0
	for range s {
		n++
	}
	for _ = range s {
		n++
	}
	for _, _ = range s {
		n++
	}
	for i, _ := range s {
		n += i
	}
	for _, v := range s {
		n += v
	}
	for range map[int]int{1: 1} {
		n++
	}
	for range "héj" {
		n++
	}
	fmt.Println(n)
}
