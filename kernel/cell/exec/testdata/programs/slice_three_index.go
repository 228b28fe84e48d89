// The third index bounds the capacity so that append copies.
package main

import "fmt"

func main() {
	a := [6]int{1, 2, 3, 4, 5, 6}
	s := a[1:3:4]
	s = append(s, 40)
	fmt.Println(a, s)
	s = append(s, 50)
	s[0] = 20
	fmt.Println(a, s)
	t := a[:2:2]
	t = append(t, 7, 8)
	t[1] = 70
	fmt.Println(a, t, len(a[2:2:5]))
}
