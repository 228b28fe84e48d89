// An interface holds a copy of the struct put into it.
package main

import "fmt"

type p struct {
	x int
	a [2]int
}

func main() {
	v := p{1, [2]int{1, 1}}
	var i any = v
	v.x = 2
	v.a[0] = 5
	w := i.(p)
	w.x = 3
	j := i
	fmt.Println(v, i, w, j == i, i.(p).x)
	i = &v
	v.x = 7
	fmt.Println(i.(*p).x, j)
}
