package inverting

import (
	"ohmwright/units"
)

var q = units.MustParse

func box[T any](x T, err error) (any, error) { return x, err }

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

// rail is an inverting stage with every drop, in continuous conduction: our
// own.
func rail() Stage {
	return Stage{
		Input: q("12 V"), Output: q("-5 V"), Load: q("0.8 A"), Frequency: q("500 kHz"), Inductance: q("15 µH"),
		Switch: q("150 mΩ"), Rectifier: q("90 mΩ"), Winding: q("60 mΩ"),
	}
}

// sepic is a SEPIC with every drop, in continuous conduction: our own.
func sepic() Stage {
	return Stage{
		Input: q("12 V"), Output: q("12 V"), Load: q("0.6 A"), Frequency: q("400 kHz"), Inductance: q("33 µH"), Second: q("22 µH"),
		Switch: q("80 mΩ"), Diode: q("0.45 V"), Winding: q("70 mΩ"), SecondWinding: q("50 mΩ"), SEPIC: true,
	}
}

// coupled is the same on one core.
func coupled() Stage {
	s := sepic()
	s.Second, s.SecondWinding, s.Coupled = units.Quantity{}, units.Quantity{}, true
	return s
}
