// A slice may be resliced up to its capacity and shows old elements.
package main

import "fmt"

func main() {
	a := []int{1, 2, 3, 4}
	s := a[:2]
	t := s[1:4]
	fmt.Println(s, t, len(s[:0]), s[:4])
	u := s[2:]
	fmt.Println(len(u), u[:2])
	func(x []int) { x = append(x, 99); x[0] = -1 }(s)
	fmt.Println(s, a)
}
