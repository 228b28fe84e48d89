package switching

import (
	"ohmwright/units"
)

var q = units.MustParse

func box[T any](x T, err error) (any, error) { return x, err }

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }
