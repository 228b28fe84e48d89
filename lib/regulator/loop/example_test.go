package loop_test

import (
	"fmt"

	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// The loop of L5987 Doc ID 14972 Rev 3 p. 23, which prints about 71 kHz and 46°.
func ExampleMargins() {
	q := units.MustParse
	plant := loop.Plant{Gain: q("9"), Frequency: q("250 kHz"), Resonance: q("10.73 kHz"), Quality: q("1.63"), Zeros: []units.Quantity{q("7.23 MHz")}}
	m, err := loop.Margins(plant, loop.Amplifier{
		GainBandwidth: q("4.5 MHz"), Upper: q("4.99 kΩ"), Lower: q("1.1 kΩ"), LeadResistor: q("220 Ω"), LeadCapacitor: q("3.3 nF"),
		Resistor: q("3.3 kΩ"), Capacitor: q("10 nF"), HighCapacitor: q("180 pF"),
	})
	fmt.Println(m.Crossover, m.PhaseMargin, err)
	// Output: 71.21 kHz 45.55 ° <nil>
}

// One zero cannot lift a loop by more than a right angle.
func ExampleTypeII() {
	q := units.MustParse
	_, err := loop.TypeII(loop.DesignInputs{
		Plant:     loop.Plant{Gain: q("9"), Frequency: q("250 kHz"), Resonance: q("10.73 kHz"), Quality: q("1.63")},
		Amplifier: loop.Amplifier{Upper: q("4.99 kΩ")}, Crossover: q("40 kHz"), PhaseMargin: q("50 deg"),
	})
	fmt.Println(err)
	// Output: loop.TypeII: the boost that the network must give is 129.9 °; it must be below the most, 90 °: one zero cannot; lower PhaseMargin or Crossover, or take TypeIII
}
