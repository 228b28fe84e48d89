package stepup

import (
	"ohmwright/units"
)

var q = units.MustParse

func box[T any](x T, err error) (any, error) { return x, err }

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

// lossy is a stage with every drop, in continuous conduction: our own.
func lossy() Stage {
	return Stage{
		Input: q("3.7 V"), Output: q("12 V"), Load: q("0.25 A"), Frequency: q("1 MHz"), Inductance: q("6.8 µH"),
		Switch: q("150 mΩ"), Sense: q("20 mΩ"), Rectifier: q("100 mΩ"), Winding: q("60 mΩ"),
	}
}
