// The kind of untyped operands decides between integer and float division.
package main

import "fmt"

func main() {
	const a, b = 9, 4
	const c = 4.0
	x := 9
	fmt.Println(a/b, a/c, x/b, x/c, float64(a)/b, -a/b)
	var f float64 = a / b
	var g float64 = a / c
	fmt.Println(f, g)
}
