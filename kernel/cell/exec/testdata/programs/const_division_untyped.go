// Whole-number constants divide as whole numbers before the product becomes a float.
package main

import "fmt"

func main() {
	y := 7 / 2 * 2.0
	z := 7 / 2.0 * 2
	fmt.Println(y, z, 2.0*7/2)
	fmt.Printf("%T %T\n", y, z)
}
