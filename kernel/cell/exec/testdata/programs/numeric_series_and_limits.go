// Series summed forwards and backwards, with a stop on convergence.
package main

import (
	"fmt"
	"math"
)

func main() {
	e, term := 1.0, 1.0
	n := 1
	for ; term > 1e-17; n++ {
		term /= float64(n)
		e += term
	}
	fmt.Println(e == math.E || math.Abs(e-math.E) < 1e-15, n)
	var up, down float64
	for i := 1; i <= 1000; i++ {
		up += 1 / float64(i*i)
	}
	for i := 1000; i >= 1; i-- {
		down += 1 / float64(i*i)
	}
	fmt.Printf("%.12f %.12f %t\n", up, down, up == down)
	pi := 0.0
	for k := range 2000 {
		s := 1.0
		if k%2 == 1 {
			s = -1
		}
		pi += s * 4 / float64(2*k+1)
	}
	fmt.Printf("%.6f\n", pi)
}
