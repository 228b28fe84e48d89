// The limits of the math package hold for variables too.
package main

import (
	"fmt"
	"math"
)

func main() {
	var i8 int8 = math.MaxInt8
	var u16 uint16 = math.MaxUint16
	var i64 int64 = math.MinInt64
	var u64 uint64 = math.MaxUint64
	i8++
	u16++
	i64--
	u64++
	fmt.Println(i8, u16, i64, u64, math.MaxInt32, math.MaxInt, uint32(math.MaxUint32))
}
