// Float operations overflow to infinity without a panic.
package main

import (
	"fmt"
	"math"
)

func main() {
	x := 1e308
	y := x * 10
	fmt.Println(y, -y, y-y, y*0, 1/y, math.IsInf(y, 1), math.IsNaN(y-y))
	var f float32 = 3e38
	fmt.Println(f*2, f*f, -f*f, float32(x))
	t := 5e-324
	fmt.Println(t/2, t, -t/2 == 0)
}
