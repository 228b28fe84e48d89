// Mean, deviation, median and quantiles of a sample.
package main

import (
	"fmt"
	"math"
	"sort"
)

func main() {
	xs := []float64{9.8, 10.1, 10.0, 9.9, 10.3, 9.7}
	sum, sq := 0.0, 0.0
	for _, x := range xs {
		sum += x
	}
	mean := sum / float64(len(xs))
	for _, x := range xs {
		sq += (x - mean) * (x - mean)
	}
	sd := math.Sqrt(sq / float64(len(xs)-1))
	s := append([]float64(nil), xs...)
	sort.Float64s(s)
	median := (s[len(s)/2-1] + s[len(s)/2]) / 2
	fmt.Printf("%.4f %.4f %.3f %.1f %.1f\n", mean, sd, median, s[0], s[len(s)-1])
	fmt.Println(xs[0], len(s))
}
