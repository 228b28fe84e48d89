package stepup_test

import (
	"fmt"

	"ohmwright/lib/regulator/stepup"
	"ohmwright/units"
)

// The example of TPS65140 SLVS497E, without the drop of its switch.
func ExampleCurrents() {
	q := units.MustParse
	i, err := stepup.Currents(stepup.Stage{
		Input: q("3.3 V"), Output: q("10 V"), Load: q("300 mA"), Frequency: q("1.6 MHz"), Inductance: q("4.2 µH"), Diode: q("0.8 V"),
	})
	fmt.Println(i.Duty, i.Mean, i.Ripple, i.Peak, err)
	// Output: 0.6944 981.8 mA 341 mA 1.152 A <nil>
}

// A step-up regulator cannot step down: a higher input passes through it.
func ExampleDuty() {
	q := units.MustParse
	_, err := stepup.Duty(stepup.Stage{Input: q("13 V"), Output: q("12 V"), Load: q("0.1 A"), Frequency: q("1 MHz")})
	fmt.Println(err)
	// Output: stepup.Duty: Input is 13 V; it must be below the output, 12 V: a step-up regulator passes a higher input through its inductor and rectifier to the output, which then follows it; lower the input, raise the output, or take a regulator that also steps down
}

// Switching on a battery of 4.2 V.
func ExampleInrush() {
	q := units.MustParse
	r, err := stepup.Inrush(stepup.InrushInputs{Input: q("4.2 V"), Diode: q("0.4 V"), Inductance: q("10 µH"), Capacitance: q("22 µF"), Resistance: q("0.2 Ω")})
	fmt.Println(r.UndampedPeak, r.Peak, r.HighestOutput, err)
	// Output: 5.636 A 4.554 A 6.172 V <nil>
}
