// Sums of float64 round at each step.
package main

import "fmt"

func main() {
	s := 0.0
	for range 10 {
		s += 0.1
	}
	fmt.Println(s, s == 1, 1-s)
	a := 1e16
	fmt.Println(a+1-a, a+2-a, 1e308*10 > 1e308)
	x := 0.1
	fmt.Println(x+0.2, x*3, 0.3-x, x*x)
}
