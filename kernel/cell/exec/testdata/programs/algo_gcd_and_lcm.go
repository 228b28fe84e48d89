// Greatest common divisor by recursion and by loop.
package main

import "fmt"

func gcd(a, b int) int {
	if b == 0 {
		return a
	}
	return gcd(b, a%b)
}
func gcdLoop(a, b uint64) uint64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
func extended(a, b int) (g, x, y int) {
	if b == 0 {
		return a, 1, 0
	}
	g, x1, y1 := extended(b, a%b)
	return g, y1, x1 - a/b*y1
}

func main() {
	fmt.Println(gcd(48, 36), gcdLoop(1<<40, 6<<30), 48/gcd(48, 36)*36, gcd(0, 5), gcd(-12, 8))
	fmt.Println(extended(240, 46))
}
