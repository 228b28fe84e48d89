// An expression tree of interfaces is evaluated, printed and derived.
package main

import (
	"fmt"
	"strconv"
)

type expr interface {
	eval(x float64) float64
	diff() expr
	String() string
}
type num float64
type xvar struct{}
type sum struct{ a, b expr }
type mul struct{ a, b expr }

func (n num) eval(float64) float64   { return float64(n) }
func (xvar) eval(x float64) float64  { return x }
func (s sum) eval(x float64) float64 { return s.a.eval(x) + s.b.eval(x) }
func (m mul) eval(x float64) float64 { return m.a.eval(x) * m.b.eval(x) }
func (num) diff() expr               { return num(0) }
func (xvar) diff() expr              { return num(1) }
func (s sum) diff() expr             { return sum{s.a.diff(), s.b.diff()} }
func (m mul) diff() expr             { return sum{mul{m.a.diff(), m.b}, mul{m.a, m.b.diff()}} }
func (n num) String() string         { return strconv.FormatFloat(float64(n), 'g', -1, 64) }
func (xvar) String() string          { return "x" }
func (s sum) String() string         { return fmt.Sprintf("(%v + %v)", s.a, s.b) }
func (m mul) String() string         { return fmt.Sprintf("%v*%v", m.a, m.b) }

func main() {
	e := sum{mul{num(3), mul{xvar{}, xvar{}}}, num(1.5)}
	fmt.Println(e, e.eval(2), e.diff().eval(2))
	fmt.Println(e.diff())
}
