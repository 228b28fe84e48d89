// Signed integers wrap round in each width.
package main

import "fmt"

func main() {
	var a int8 = 127
	var b int16 = 32767
	var c int32 = 2147483647
	var d int64 = 9223372036854775807
	a++
	b++
	c++
	d++
	fmt.Println(a, b, c, d)
	a--
	b--
	c--
	d--
	fmt.Println(a, b, c, d)
	a *= 2
	b *= 3
	c *= c
	d += d
	fmt.Println(a, b, c, d)
}
