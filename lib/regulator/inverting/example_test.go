package inverting_test

import (
	"fmt"

	"ohmwright/lib/regulator/inverting"
	"ohmwright/units"
)

// A rail of −5 V from 12 V.
func ExampleCurrents() {
	q := units.MustParse
	i, err := inverting.Currents(inverting.Stage{
		Input: q("12 V"), Output: q("-5 V"), Load: q("1 A"), Frequency: q("500 kHz"), Inductance: q("15 µH"), Diode: q("0.5 V"),
	})
	fmt.Println(i.Ripple, i.Peak, i.Boundary, err)
	// Output: 502.9 mA 1.71 A 172.4 mA <nil>
}

// The sign of the output says what is meant.
func ExampleDuty() {
	q := units.MustParse
	_, err := inverting.Duty(inverting.Stage{Input: q("12 V"), Output: q("5 V"), Load: q("1 A"), Frequency: q("500 kHz")})
	fmt.Println(err)
	// Output: inverting.Duty: Output is 5 V; it must be below ground, 0 V: an inverting stage makes a negative output; write its minus sign, or set SEPIC for a positive one
}
