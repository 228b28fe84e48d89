// A right shift of a signed number keeps the sign.
package main

import "fmt"

func main() {
	a := int8(-127)
	fmt.Println(a>>1, a>>7, a>>100, a<<1, a<<7, a<<8)
	var x int32 = -1
	fmt.Println(x>>31, uint32(x)>>31, x<<31, x<<32, int64(x)<<32)
	var s uint8 = 65
	fmt.Println(1<<s>>s, int64(1)<<s, -8>>1, -1>>s)
}
