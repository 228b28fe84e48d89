// float32 results are rounded after each operation.
package main

import "fmt"

func main() {
	var a, b float32 = 0.1, 0.2
	fmt.Println(a+b, a*b, a/b, float64(a), a+b == 0.3, float64(a)+float64(b))
	var x float32 = 16777216
	fmt.Println(x+1, x+2, x+1 == x)
	s := float32(0)
	for range 10 {
		s += 0.1
	}
	fmt.Println(s, float32(1)/3, float64(float32(1)/3))
}
