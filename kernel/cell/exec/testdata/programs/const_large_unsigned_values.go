// Constants above the signed range reach unsigned variables whole.
package main

import (
	"fmt"
	"math"
)

func main() {
	const top = 1 << 63
	var u uint64 = top
	u += top - 1
	fmt.Println(u, u == math.MaxUint64, uint64(top)>>1, float64(top), -top == math.MinInt64)
	var x uint64 = 0xdeadbeefcafebabe
	fmt.Println(x, x>>60, x*3, x%1000, x/7, ^x)
	fmt.Printf("%x %d %v %T\n", x, x, x, x)
	var i any = uint64(top)
	fmt.Println(i == any(u/2+1), i)
}
