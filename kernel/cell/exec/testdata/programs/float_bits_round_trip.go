// The bits of a float survive the way there and back.
package main

import (
	"fmt"
	"math"
)

func main() {
	for _, f := range []float64{1, -2, 0.1, math.Inf(1), 5e-324} {
		b := math.Float64bits(f)
		fmt.Printf("%016x %v %t\n", b, f, math.Float64frombits(b) == f)
	}
	fmt.Printf("%08x %v\n", math.Float32bits(0.1), math.Float32frombits(0x40490fdb))
	fmt.Println(math.Nextafter(1, 2) > 1, math.Nextafter(1, 2)-1)
}
