// A conversion to a narrower integer keeps the low bits.
package main

import "fmt"

func main() {
	x := 0x12345678_9abcdef0
	fmt.Println(int8(x), int16(x), int32(x), uint8(x), uint16(x), uint32(x), uint64(x))
	n := -1
	fmt.Println(uint8(n), uint16(n), uint32(n), uint64(n), uint(n))
	u := uint8(200)
	fmt.Println(int8(u), int(u), int(int8(u)), uint64(int8(u)))
	var r rune = 'é'
	fmt.Println(byte(r), int8(r))
}
