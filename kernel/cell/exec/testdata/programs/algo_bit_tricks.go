// Counting, isolating and swapping bits by hand.
package main

import "fmt"

func main() {
	count := func(x uint) (n int) {
		for ; x != 0; x &= x - 1 {
			n++
		}
		return
	}
	gray := func(n uint) uint { return n ^ n>>1 }
	for i := range uint(9) {
		fmt.Printf("%d:%04b ", count(i), gray(i))
	}
	fmt.Println()
	x, y := 12, 7
	x ^= y
	y ^= x
	x ^= y
	fmt.Println(x, y, x&-x, 12&-12, 40&(40-1) == 0, 64&(64-1) == 0, ^0, -(^5))
	var v uint8 = 0b00010110
	v |= 1 << 3
	v &^= 1 << 1
	v ^= 1 << 7
	fmt.Printf("%08b %d %t\n", v, v>>2&3, v>>4&1 == 1)
}
