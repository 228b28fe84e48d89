// Unsigned integers wrap round in each width.
package main

import "fmt"

func main() {
	var a uint8
	var b uint16
	var c uint32
	var d uint64
	var e uint
	a--
	b--
	c--
	d--
	e--
	fmt.Println(a, b, c, d, e)
	a += 3
	b *= 2
	c *= c
	d *= d
	fmt.Println(a, b, c, d, e+1)
	x, y := uint8(200), uint8(100)
	fmt.Println(x+y, x*y, y-x, -x, x+y > x)
}
