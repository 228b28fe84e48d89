// The minimum divided by minus one wraps in every width.
package main

import (
	"fmt"
	"math"
)

func main() {
	m8, m16, m32, m64, m := int8(-128), int16(-32768), int32(-1<<31), int64(-1<<63), math.MinInt
	n := -1
	fmt.Println(m8/int8(n), m16/int16(n), m32/int32(n), m64/int64(n), m/n)
	fmt.Println(m8%int8(n), m16%int16(n), m32%int32(n), m64%int64(n), m%n)
	fmt.Println(-m8, -m16, -m32, -m64, m8*m8, m16-1, m32-1, m64-1)
}
