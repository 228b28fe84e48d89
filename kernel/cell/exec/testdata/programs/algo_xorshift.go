// A xorshift generator uses shifts of unsigned words.
package main

import "fmt"

func main() {
	x := uint32(2463534242)
	next := func() uint32 { x ^= x << 13; x ^= x >> 17; x ^= x << 5; return x }
	var hist [4]int
	for range 1000 {
		hist[next()%4]++
	}
	fmt.Println(next(), next(), hist)
	var s int16 = 1
	for range 40 {
		s ^= s << 7
		s ^= s >> 5
		s ^= s << 3
	}
	fmt.Println(s)
}
