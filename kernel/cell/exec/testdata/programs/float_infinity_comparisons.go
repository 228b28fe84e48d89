// Infinities are ordered and equal themselves.
package main

import (
	"fmt"
	"math"
)

func main() {
	p, m := math.Inf(1), math.Inf(-1)
	fmt.Println(p == p, p > 1e308, m < -1e308, p == -m, p+m == p, p+1 == p, m*m == p)
	fmt.Println(math.MaxFloat64 < p, 1/p, 1/m, math.Sqrt(p), math.Log(0), math.Exp(m))
}
