// A captured struct is shared and its field can be set from the closure.
package main

import "fmt"

func main() {
	type point struct{ x, y int }
	p := point{1, 2}
	move := func(dx int) { p.x += dx }
	q := &p
	move(5)
	q.y = 7
	fmt.Println(p, *q)
	p = point{}
	move(1)
	fmt.Println(p, q.x)
}
