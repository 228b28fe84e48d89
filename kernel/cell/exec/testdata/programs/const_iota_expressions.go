// An implicit repetition repeats the whole expression with the new iota.
package main

import "fmt"

func main() {
	const (
		a, b = iota + 1, 1 << iota
		c, d
		e, f
	)
	const (
		x float64 = iota * 0.5
		y
		z
	)
	const (
		w0 = 'a' + iota
		w1
		w2
	)
	fmt.Println(a, b, c, d, e, f, x, y, z, string(rune(w2)), w1)
}
