// Integer division and remainder by zero panic, for every width.
package main

import "fmt"

func try(name string, f func()) {
	defer func() {
		if r := recover(); r != nil {
			fmt.Println(name+":", r)
		}
	}()
	f()
}

func main() {
	z := 0
	var u8 uint8
	var i64 int64
	try("quotient", func() { fmt.Println(1 / z) })
	try("remainder", func() { a := 1; fmt.Println(a % z) })
	try("uint8", func() { x := uint8(3); x /= u8; fmt.Println(x) })
	try("int64", func() { x := int64(3); x %= i64; fmt.Println(x) })
	f := 0.0
	fmt.Println(1/f, -1/f, f/f)
}
