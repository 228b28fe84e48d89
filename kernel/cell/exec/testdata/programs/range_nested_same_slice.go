// Nested ranges over one slice do not disturb each other.
package main

import "fmt"

func main() {
	s := []int{1, 2, 3}
	for i, a := range s {
		for j, b := range s[i:] {
			if a == b {
				continue
			}
			fmt.Print(i, j, a*b, "; ")
			s := []int{a, b}
			for _, s := range s {
				fmt.Print(s, ",")
			}
		}
	}
	fmt.Println()
}
