// Conversions between floats and integers truncate and round as defined.
package main

import "fmt"

func main() {
	f := 2.9
	g := -2.9
	fmt.Println(int(f), int(g), int8(f), uint8(f), int64(f*1e9))
	n := 1<<53 + 1
	fmt.Println(float64(n), int(float64(n)) == n, float32(n))
	i := 7
	fmt.Println(float64(i)/2, float64(i/2), int(float64(i)*1.5))
	var u uint64 = 1<<64 - 1
	fmt.Println(float64(u), float32(u), float64(int64(-1)))
}
