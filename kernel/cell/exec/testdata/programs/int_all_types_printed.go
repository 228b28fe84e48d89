// The numeric types print with their own names.
package main

import "fmt"

func main() {
	vs := []any{int(1), int8(2), int16(3), int32(4), int64(5), uint(6), uint8(7), uint16(8), uint32(9), uint64(10), uintptr(11), float32(12), float64(13), byte(14), rune(15)}
	for _, v := range vs {
		fmt.Printf("%T=%v ", v, v)
	}
	fmt.Println()
}
