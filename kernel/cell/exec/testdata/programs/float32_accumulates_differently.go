// A float32 sum differs from the rounded float64 sum.
package main

import "fmt"

func main() {
	var s32 float32
	s64 := 0.0
	for i := 1; i <= 1000; i++ {
		s32 += 1 / float32(i)
		s64 += 1 / float64(i)
	}
	fmt.Println(s32, float32(s64), s32 == float32(s64))
	fmt.Printf("%.9f %.9f\n", s32, s64)
}
