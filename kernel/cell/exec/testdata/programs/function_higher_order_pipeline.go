// Functions are combined into a pipeline.
package main

import (
	"fmt"
	"math"
)

type stage func([]float64) []float64

func each(f func(float64) float64) stage {
	return func(xs []float64) []float64 {
		out := make([]float64, len(xs))
		for i, x := range xs {
			out[i] = f(x)
		}
		return out
	}
}
func pipe(ss ...stage) stage {
	return func(xs []float64) []float64 {
		for _, s := range ss {
			xs = s(xs)
		}
		return xs
	}
}

func main() {
	double := each(func(x float64) float64 { return 2 * x })
	tail := stage(func(xs []float64) []float64 { return xs[1:] })
	in := []float64{1, 4, 9}
	fmt.Println(pipe(double, tail, each(math.Sqrt))(in), in, pipe()(in))
}
