// Fields are swapped in a parallel assignment.
package main

import "fmt"

func main() {
	type p struct{ x, y int }
	a := p{1, 2}
	a.x, a.y = a.y, a.x
	b := &a
	b.x, a.y = a.y*10, b.x*10
	fmt.Println(a)
	s := []p{{1, 2}, {3, 4}}
	s[0], s[1] = s[1], s[0]
	s[0].x, s[1].x = s[1].x, s[0].x
	fmt.Println(s)
}
