// Small counters wrap round in loops.
package main

import (
	"fmt"
	"math"
)

func main() {
	n := 0
	for i := uint8(250); i >= 250; i++ {
		n++
	}
	var c int8 = 120
	for c > 0 {
		c++
		n++
	}
	fmt.Println(n, c)
	var u uint = 3
	for ; u < 10; u-- {
		n++
	}
	fmt.Println(n, u == math.MaxUint)
}
