// A deferred append is seen through a named slice result only.
package main

import "fmt"

func named() (s []int) {
	defer func() { s = append(s, 3); s[0] = 100 }()
	return []int{1, 2}
}
func unnamed() []int {
	s := []int{1, 2}
	defer func() { s[0] = 100; s = append(s, 3) }()
	return s
}
func arr() (a [2]int) { defer func() { a[1]++ }(); a[0] = 5; return a }

func main() {
	fmt.Println(named(), unnamed(), arr())
}
