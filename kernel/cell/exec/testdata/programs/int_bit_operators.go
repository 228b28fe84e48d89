// The bit operators work on all widths with their complement.
package main

import "fmt"

func main() {
	var a, b uint8 = 0b11001010, 0b10100110
	fmt.Printf("%08b %08b %08b %08b %08b\n", a&b, a|b, a^b, a&^b, ^a)
	c, d := int16(-3), int16(12)
	fmt.Println(c&d, c|d, c^d, c&^d, ^c, ^d, -c)
	a &= 0xf0
	b |= 1
	b ^= 0xff
	c &^= 1
	fmt.Println(a, b, c)
}
