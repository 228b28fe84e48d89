// Increment and compound assignment work on floats.
package main

import "fmt"

func main() {
	x := 0.5
	x++
	x *= 4
	x -= 1.5
	x /= 3
	x--
	fmt.Println(x)
	xs := []float64{1, 2}
	xs[1]++
	xs[0] /= 8
	p := &xs[0]
	*p += 0.25
	fmt.Println(xs)
}
