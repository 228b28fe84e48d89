// Conversions of constants are checked and exact.
package main

import "fmt"

func main() {
	type id uint16
	const x = id(65535)
	y := x
	y++
	fmt.Println(x, y, int8(-128), uint(7), float32(0.1), string(rune(0x4e16)), rune('x'), byte('x'))
	fmt.Println(int('0')-48, float64(3)/2, []byte("é"), id(6)/2)
}
