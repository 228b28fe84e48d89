// The remainder of floats is a function, not an operator.
package main

import (
	"fmt"
	"math"
)

func main() {
	fmt.Println(math.Mod(7.5, 2), math.Mod(-7.5, 2), math.Remainder(7.5, 2))
	fmt.Println(math.Floor(-1.5), math.Ceil(-1.5), math.Trunc(-1.5), math.Round(-2.5), math.RoundToEven(2.5))
	i, f := math.Modf(-3.25)
	fmt.Println(i, f)
	fr, ex := math.Frexp(10)
	fmt.Println(fr, ex, math.Ldexp(fr, ex), math.Hypot(3, 4), math.Cbrt(27))
}
