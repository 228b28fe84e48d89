// A negative shift count panics and a count beyond the width does not.
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
	n := -1
	x := 8
	try("left", func() { fmt.Println(x << n) })
	try("right", func() { fmt.Println(x >> n) })
	try("assign", func() { x <<= n })
	n = 70
	fmt.Println(x<<n, x>>n, -x>>n, uint8(x)<<n)
}
