// Println gives the shortest text that reads back to the same float.
package main

import (
	"fmt"
	"math"
)

func main() {
	fmt.Println(1.0, 100000.0, 1e20, 1e21, 123456789.0, 1e-4, 1e-5, 0.000001234, 2.5e-10)
	fmt.Println(float32(0.1), float32(1e21), float32(16777216), 1.0/3, float32(1.0)/3)
	fmt.Println(math.Pi, math.MaxFloat64, math.SmallestNonzeroFloat64, float32(math.MaxFloat32))
}
