// Variables swapped in each turn must change at the same moment.
package main

import "fmt"

func main() {
	a, b, c := 1, 2, 3
	for range 5 {
		a, b = b, a
	}
	fmt.Println(a, b)
	for range 4 {
		a, b, c = b, c, a
	}
	fmt.Println(a, b, c)
	x, y := 0, 1
	for i := 0; i < 10; i++ {
		x, y = y, x+y
	}
	fmt.Println(x, y)
	p, q := "p", "q"
	for i := range 3 {
		if i != 1 {
			p, q = q, p
		}
	}
	fmt.Println(p, q)
}
