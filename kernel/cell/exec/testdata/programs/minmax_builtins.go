// The builtins min and max take any number of ordered operands.
package main

import (
	"fmt"
	"math"
)

func main() {
	x, y := 3, 1.5
	fmt.Println(min(x, 2), max(x, 2, 5), min(y, 2), max(y, 1, 0.5), min(1, 2.5), max('a', 1))
	fmt.Println(math.IsNaN(min(y, math.NaN())), math.IsNaN(max(math.NaN(), math.Inf(1))))
	z := 0.0
	fmt.Println(1/min(z, -z), 1/max(-z, z), min("b", "a", "c"))
	fmt.Printf("%T %T %T\n", min(1, 2), min(1, 2.0), max(uint8(3), 4))
}
