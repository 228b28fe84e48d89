// Typed constants keep their type and integer division.
package main

import "fmt"

type level int

const (
	low  level   = 6
	two          = 2
	dur          = low * two
	half         = low / two
	f32  float32 = 0.1
)

func main() {
	fmt.Printf("%T %v %T %v\n", dur, dur, half, half)
	fmt.Println(f32, float64(f32), f32*f32)
}
