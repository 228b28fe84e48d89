// The most negative number is its own negative, also under division.
package main

import (
	"fmt"
	"math"
)

func main() {
	var a int8 = -128
	var d int64 = math.MinInt64
	m := int8(-1)
	n := int64(-1)
	fmt.Println(-a, a/m, a%m, a*m)
	fmt.Println(-d, d/n, d%n, d*n, d-1)
}
