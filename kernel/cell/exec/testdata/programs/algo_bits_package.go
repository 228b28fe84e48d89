// The functions of math/bits on words of several widths.
package main

import (
	"fmt"
	"math/bits"
)

func main() {
	for _, x := range []uint32{0, 1, 40, 0xff00ff00} {
		fmt.Println(bits.OnesCount32(x), bits.LeadingZeros32(x), bits.TrailingZeros32(x), bits.Len32(x), bits.Reverse32(x))
	}
	fmt.Println(bits.RotateLeft8(0b10010110, 3), bits.RotateLeft64(1, -1), bits.ReverseBytes16(0x1234), bits.UintSize)
	s, c := bits.Add64(1<<63, 1<<63, 1)
	hi, lo := bits.Mul64(1<<40, 1<<40)
	q, r := bits.Div64(1, 0, 3)
	fmt.Println(s, c, hi, lo, q, r)
}
