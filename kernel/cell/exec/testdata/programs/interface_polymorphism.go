// A slice of shapes calls each one's own methods.
package main

import (
	"fmt"
	"math"
)

type shape interface {
	area() float64
	grow(float64) shape
}
type rect struct{ w, h float64 }
type circ struct{ r float64 }

func (r rect) area() float64         { return r.w * r.h }
func (r rect) grow(k float64) shape  { return rect{r.w * k, r.h * k} }
func (c *circ) area() float64        { return math.Pi * c.r * c.r }
func (c *circ) grow(k float64) shape { c.r *= k; return c }

func main() {
	ss := []shape{rect{2, 3}, &circ{1}}
	for _, s := range ss {
		fmt.Printf("%.3f %.3f %.3f\n", s.area(), s.grow(2).area(), s.area())
	}
}
