// A parallel assignment takes all right sides and indexes before it stores.
package main

import "fmt"

func main() {
	a, b, c := 1, 2, 3
	a, b, c = c, a, b
	fmt.Println(a, b, c)
	s := []int{10, 20, 30}
	i := 0
	i, s[i] = 2, 99
	fmt.Println(i, s)
	s[i], i = 77, 1
	fmt.Println(i, s)
	s[0], s[0] = 1, 2
	fmt.Println(s)
	s, s[1] = nil, 5
	fmt.Println(s)
}
