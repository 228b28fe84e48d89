// No comparison with NaN holds except not-equal.
package main

import (
	"fmt"
	"math"
)

func main() {
	n := math.NaN()
	fmt.Println(n == n, n != n, n < 1, n > 1, n <= n, n >= n, !(n < 1))
	m := map[float64]int{}
	m[n] = 1
	m[n] = 2
	_, ok := m[n]
	fmt.Println(len(m), ok)
	delete(m, n)
	fmt.Println(len(m))
	clear(m)
	fmt.Println(len(m))
	var a, b any = n, n
	fmt.Println(a == b, [1]float64{n} == [1]float64{n})
}
