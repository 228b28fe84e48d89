// No excess precision is kept between the steps.
package main

import (
	"fmt"
	"math"
)

func main() {
	a, b, c := 0.1, 0.2, 0.3
	fmt.Println((a+b)+c == a+(b+c), (a+b)+c, a+(b+c), a*b*c, a*(b*c), a/b/c)
	x, y := 1e200, 1e-200
	fmt.Println(x*x*y, x*(x*y), x/y, y/x, x-x*(1+1e-16), math.Sqrt(2)*math.Sqrt(2))
	var s, t float32 = 16777217, 0.1
	fmt.Println(s, s+t, (s+t)+t, t*t*t, float32(float64(t)*float64(t)))
}
