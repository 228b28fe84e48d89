// Integer type parameters shift, wrap and convert by their instance.
package main

import "fmt"

func bitsOf[T ~int8 | ~uint8 | ~int16 | ~uint16](x T) (n int) {
	for i := T(1); i != 0; i <<= 1 {
		if x&i != 0 {
			n++
		}
	}
	return
}
func wrapAdd[T ~int8 | ~uint8](a, b T) (T, bool)          { s := a + b; return s, int(s) != int(a)+int(b) }
func conv[A, B ~int8 | ~uint8 | ~int64 | ~float64](a A) B { return B(a) }

func main() {
	fmt.Println(bitsOf(int8(-1)), bitsOf(uint16(0xf0f0)), bitsOf[int16](-2))
	fmt.Println(wrapAdd(int8(100), 100))
	fmt.Println(wrapAdd(uint8(200), 55))
	fmt.Println(conv[int64, uint8](300), conv[float64, int8](-3.9), conv[int8, float64](-3))
}
