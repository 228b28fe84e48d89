// Keys that contain float zeros and NaN follow equality.
package main

import (
	"fmt"
	"math"
)

func main() {
	type k struct {
		f float64
		s string
	}
	z := 0.0
	m := map[k]int{{0, "a"}: 1}
	m[k{-z, "a"}]++
	a := map[[2]float64]int{{0, -z}: 1}
	a[[2]float64{-z, z}]++
	i := map[any]int{z: 1}
	i[-z]++
	fmt.Println(len(m), m[k{z, "a"}], len(a), a[[2]float64{}], len(i), i[0.0])
	n := math.NaN()
	m[k{n, "n"}] = 1
	m[k{n, "n"}] = 1
	_, ok := m[k{n, "n"}]
	fmt.Println(len(m), ok)
}
