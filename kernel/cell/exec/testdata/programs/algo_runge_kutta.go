// A fourth-order step integrates a differential equation.
package main

import (
	"fmt"
	"math"
)

func step(f func(t, y float64) float64, t, y, h float64) float64 {
	k1 := f(t, y)
	k2 := f(t+h/2, y+h/2*k1)
	k3 := f(t+h/2, y+h/2*k2)
	k4 := f(t+h, y+h*k3)
	return y + h/6*(k1+2*k2+2*k3+k4)
}

func main() {
	y, h := 1.0, 0.1
	for i := range 10 {
		y = step(func(t, y float64) float64 { return y - t }, float64(i)*h, y, h)
	}
	fmt.Printf("%.6f %.6f\n", y, 2.0)
	z := 1.0
	for range 20 {
		z = step(func(_, y float64) float64 { return -y }, 0, z, 0.05)
	}
	fmt.Printf("%.6f %.6f\n", z, math.Exp(-1))
}
