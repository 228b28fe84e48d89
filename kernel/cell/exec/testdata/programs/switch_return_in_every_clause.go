// A function may end in a switch that returns everywhere.
package main

import (
	"fmt"
	"math"
)

func sign(x float64) int {
	switch {
	case x > 0:
		return 1
	case x < 0:
		return -1
	case x == 0:
		return 0
	default:
		return 99
	}
}
func loop() int {
	for {
		switch {
		default:
			return 5
		}
	}
}

func main() {
	fmt.Println(sign(3), sign(-2), sign(0), sign(math.NaN()), loop())
}
