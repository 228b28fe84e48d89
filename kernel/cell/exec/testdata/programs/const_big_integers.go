// Constants beyond 64 bits are exact until used.
package main

import "fmt"

func main() {
	const big = 1 << 100
	const huge = big * big
	fmt.Println(big>>98, huge/big>>99, big%1000 == 376, huge > big)
	fmt.Println(float64(big), big/(1<<90))
	const max = 1<<64 - 1
	fmt.Println(uint64(max), max/3 == 6148914691236517205)
}
