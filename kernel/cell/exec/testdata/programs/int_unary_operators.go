// Plus, minus and complement bind tighter than binary operators.
package main

import "fmt"

func main() {
	x, y := 5, uint8(5)
	fmt.Println(-x, +x, ^x, - -x, ^^x, -y, ^y, -x*2, ^x+1 == -x, - - -x)
	b := true
	fmt.Println(!b, !!b, x - -x, x+-x)
}
