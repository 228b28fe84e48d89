// Large floats convert to unsigned integers and back.
package main

import "fmt"

func main() {
	f := 1e19
	u := uint64(f)
	x := 255.9999
	fmt.Println(u, float64(u) == f, uint32(4294967295.0), uint8(x))
	g := 18446744073709549568.0
	fmt.Println(uint64(g), float64(uint64(1)<<63), float32(uint64(1)<<63), uint16(float32(65535)))
	h := 9007199254740993
	fmt.Println(float64(h), float64(uint64(h)), float32(h), int64(float32(16777217)))
}
