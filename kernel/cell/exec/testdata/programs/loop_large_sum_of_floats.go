// A long loop of float additions gives the sum of the rounded steps.
package main

import "fmt"

func main() {
	s := 0.0
	x := 1e-3
	for i := 0; i < 200000; i++ {
		s += x * float64(i%7)
	}
	fmt.Println(s)
	n, h := 0, uint32(1)
	for h != 1 || n == 0 {
		h = h*1664525 + 1013904223
		n++
		if n == 100000 {
			break
		}
	}
	fmt.Println(n, h)
}
