// Shift counts may be of any integer type and size.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	x := uint32(0x80000001)
	var c8 int8 = 4
	var c64 uint64 = 1 << 40
	var cu uint8 = 31
	fmt.Println(x<<c8, x>>c8, x<<c64, x>>c64, x>>cu, int32(x)>>c64, int8(-1)>>c64)
	c8 = -4
	try("negative int8", func() { fmt.Println(x << c8) })
	y := int64(-1)
	y <<= 63
	fmt.Println(y, y>>63, uint64(y)>>63, y<<1)
	y >>= cu
	fmt.Println(y)
}
