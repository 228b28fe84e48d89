// Constants in generic code take the instance's type and rounding.
package main

import "fmt"

func third[T ~float32 | ~float64]() T           { return T(1) / 3 }
func scale[T ~int8 | ~int | ~float64](x T) T    { return x*100/8 + 1 }
func bits8[T ~uint8 | ~uint16 | ~uint32](x T) T { return ^x<<4 | x>>1 }

func main() {
	fmt.Println(third[float32](), third[float64](), scale(int8(7)), scale(7), scale(7.0))
	fmt.Println(bits8(uint8(0x81)), bits8(uint16(0x81)), bits8(uint32(0x81)))
	type mv float32
	fmt.Printf("%T %v\n", third[mv](), third[mv]())
}
