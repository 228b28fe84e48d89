// Negative zero equals zero and keeps its sign through operations.
package main

import (
	"fmt"
	"math"
)

func main() {
	z := 0.0
	n := -z
	fmt.Println(z == n, 1/z, 1/n, math.Signbit(n), math.Signbit(z), n)
	m := math.Copysign(0, -1)
	fmt.Println(m, -m, m+0, m*1, 0-m, m*-1, 1/m)
	mp := map[float64]string{0: "zero"}
	fmt.Println(mp[m], -0.0, 1/(m+m))
	fmt.Printf("%v %g %.1f %+.1f\n", m, m, m, z)
}
