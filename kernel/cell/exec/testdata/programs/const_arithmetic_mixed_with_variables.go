// Constants take the type of the variable they meet.
package main

import "fmt"

func main() {
	var u8 uint8 = 10
	var f32 float32 = 0.5
	var i64 int64 = 7
	const k = 3
	const h = 0.5
	fmt.Println(u8*k, f32*k, i64*k, i64/k, f32+h, float64(i64)*h, u8<<k, k<<u8, k-u8)
	const big = 1 << 40
	fmt.Println(i64+big, float64(big)*h, f32*big, big>>38+u8)
	d := h + k
	fmt.Println(d, k*h*2)
}
