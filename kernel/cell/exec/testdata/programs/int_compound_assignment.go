// Every compound assignment operator does as its operator.
package main

import "fmt"

func main() {
	x := 100
	x += 7
	fmt.Println(x)
	x -= 10
	fmt.Println(x)
	x *= 3
	fmt.Println(x)
	x /= 4
	fmt.Println(x)
	x %= 50
	fmt.Println(x)
	x <<= 4
	fmt.Println(x)
	x >>= 2
	fmt.Println(x)
	x |= 1
	fmt.Println(x)
	x &= 0x7d
	fmt.Println(x)
	x ^= 0xff
	fmt.Println(x)
	x &^= 0x0f
	fmt.Println(x)
	x++
	x--
	fmt.Println(x)
}
