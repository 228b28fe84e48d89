package loop

import (
	"math"

	"ohmwright/units"

	"pgregory.net/rapid"
)

var q = units.MustParse

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

// all are the quantities of one unit, "430 Hz", "2 kHz".
func all(texts ...string) (list []units.Quantity) {
	for _, text := range texts {
		list = append(list, q(text))
	}
	return list
}

// size draws a number that is spread evenly over its decades.
func size(t *rapid.T, name string, low, high float64) float64 {
	return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
}
