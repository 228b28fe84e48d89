package solar

import (
	"ohmwright/units"
)

var q = units.MustParse

// of makes a quantity of a number and a unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

func box[T any](x T, err error) (any, error) { return x, err }
