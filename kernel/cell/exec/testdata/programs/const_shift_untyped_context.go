// An untyped constant that is shifted takes its type from the context.
package main

import "fmt"

func main() {
	n := 3
	var a int64 = 1 << n
	var b = uint8(1<<n) + 250
	var c uint64 = 1 << n << 60
	x := make([]int, 1<<n)
	var d byte = 255
	fmt.Println(a, b, c, len(x), d<<n, d>>n, 1<<n == 8)
	var i8 int8 = 1
	fmt.Println(i8<<7, i8<<n<<n)
}
