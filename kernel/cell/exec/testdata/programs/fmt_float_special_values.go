// NaN, infinities and negative zero print by name.
package main

import (
	"fmt"
	"math"
)

func main() {
	n, i := math.NaN(), math.Inf(1)
	fmt.Println(n, i, -i, math.Copysign(0, -1))
	fmt.Printf("%f|%5.1f|%g|%+v|%-6v|%06.1f|%e\n", n, n, i, i, -i, i, n)
	fmt.Println([]float64{n, i, -i}, float32(i))
}
