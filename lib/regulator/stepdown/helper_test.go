package stepdown

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
		Input: q("24 V"), Output: q("5 V"), Load: q("1.5 A"), Frequency: q("400 kHz"), Inductance: q("22 µH"),
		HighSwitch: q("150 mΩ"), LowSwitch: q("90 mΩ"), Winding: q("60 mΩ"),
	}
}
