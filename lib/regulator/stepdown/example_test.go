package stepdown_test

import (
	"fmt"

	"ohmwright/lib/regulator/stepdown"
	"ohmwright/units"
)

// The 42 V example of TPS54540 SLVSBX7.
func ExampleCurrents() {
	q := units.MustParse
	i, err := stepdown.Currents(stepdown.Stage{
		Input: q("42 V"), Output: q("3.3 V"), Load: q("5 A"), Frequency: q("400 kHz"), Inductance: q("4.8 µH"),
	})
	fmt.Println(i.Ripple, i.Peak, i.Boundary, err)
	// Output: 1.584 A 5.792 A 791.9 mA <nil>
}

// A step-down regulator cannot step up.
func ExampleDuty() {
	q := units.MustParse
	_, err := stepdown.Duty(stepdown.Stage{Input: q("4.5 V"), Output: q("5 V"), Load: q("1 A"), Frequency: q("400 kHz")})
	fmt.Println(err)
	// Output: stepdown.Duty: Input is 4.5 V; it must be above the output and the drops in switch and winding, 5 V: a step-down regulator cannot reach the output; raise the input or lower output, load or resistances
}
