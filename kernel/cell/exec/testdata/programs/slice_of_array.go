// Slicing an array variable aliases the array.
package main

import "fmt"

func main() {
	a := [5]int{1, 2, 3, 4, 5}
	s := a[1:3]
	s[0] = 20
	b := a
	s[1] = 30
	fmt.Println(a, b, s, len(s))
	p := &a
	t := p[3:]
	t[0] = 40
	fmt.Println(a, len(p[:]), p[len(p)-1])
}
