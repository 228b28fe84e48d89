// Sign extension and truncation follow each other.
package main

import "fmt"

func main() {
	b := byte(0xf0)
	u := uint32(1 << 31)
	fmt.Println(int8(b), int16(int8(b)), uint16(int8(b)), int32(uint16(int8(b))), int64(int32(u)), int64(u))
	i := int64(-2)
	fmt.Println(uint8(i), uint32(uint8(i)), int8(uint8(i)), uint64(int8(uint8(i))), uintptr(3))
	r := rune(-1)
	fmt.Println(uint32(r), string(r) == "\uFFFD", int8(r))
	for _, x := range []int{-129, -128, 127, 128, 255, 256} {
		fmt.Print(int8(x), " ", uint8(x), "; ")
	}
	fmt.Println()
}
