// Iota counts the lines of a constant block, blank ones included.
package main

import "fmt"

func main() {
	const (
		a = iota
		b
		_
		d
		e = "s"
		f
		g    = iota
		h, i = iota, iota * 10
		j, k
	)
	const z = iota
	fmt.Println(a, b, d, e, f, g, h, i, j, k, z)
}
