// Intermediate results of small types wrap at each step.
package main

import "fmt"

func main() {
	a, b := uint8(200), uint8(100)
	fmt.Println((a+b)/2, (int(a)+int(b))/2, a+b > a, a*b/b, a-b-b-b)
	c := int8(100)
	fmt.Println(c+c, (c+c)/2, c*c, -c-c, c<<1>>1, uint8(c)<<1>>1)
	var d uint16 = 65535
	fmt.Println(d*d, d+1, uint32(d)*uint32(d), ^d, -d)
	var e int32 = 1 << 30
	fmt.Println(e*4, e*2, e+e, e*e, e<<1)
}
