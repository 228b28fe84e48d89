package switching

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InputFilterInputs are the arguments of InputFilter.
type InputFilterInputs struct {
	Input       units.Quantity // of the regulator, V
	Power       units.Quantity // that the regulator takes from its input, W
	Frequency   units.Quantity // of switching, Hz
	Inductance  units.Quantity // of the filter, H
	Capacitance units.Quantity // at the regulator's input, with its bias, F
	Damping     units.Quantity // capacitance of the damping branch, F
	Resistance  units.Quantity // of the damping branch, the capacitor's ESR with it, Ω; left out: the best
}

// InputFilterResult is what InputFilter finds.
type InputFilterResult struct {
	NegativeResistance units.Quantity // size of the regulator's input resistance, Ω
	Characteristic     units.Quantity // impedance of inductance and capacitance, Ω
	Resonance          units.Quantity // of the two, Hz
	Ratio              units.Quantity // of the damping capacitance to the other, no unit
	BestResistance     units.Quantity // that damps best, Ω
	Resistance         units.Quantity // of the damping branch, Ω
	LargestImpedance   units.Quantity // of the filter's output, over all frequencies, Ω
	Margin             units.Quantity // of NegativeResistance over LargestImpedance, no unit
	Attenuation        units.Quantity // of the current's ripple at the switching frequency, no unit
}

// InputFilter holds an input filter of one inductor and one capacitor, with a
// damping branch of a capacitor and a resistor across it, against the
// negative input resistance of the regulator: as the input rises, the
// current of a constant power falls.
//
//	supply ── inductance ──┬───────────┬── regulator
//	                  capacitance  resistance
//	                       │        damping
//	                       └───────────┴── ground
//
//	NegativeResistance = input²/power
//	Characteristic     = √(inductance/capacitance)
//	Resonance          = 1/(2π · √(inductance · capacitance))
//	Ratio              = damping/capacitance
//	BestResistance     = Characteristic · √((2 + Ratio) · (4 + 3 · Ratio)/(2 · Ratio² · (4 + Ratio)))
//	LargestImpedance   = largest, over the frequency, of the impedance of inductance, capacitance and damping branch in parallel
//	Margin             = NegativeResistance/LargestImpedance
//	Attenuation        = (frequency/Resonance)² − 1
//
// With BestResistance, LargestImpedance is Characteristic · √(2 · (2 + Ratio))/Ratio.
//
// Arguments: Input, V, Power, W, Frequency, Hz, Inductance, H, and
// Capacitance, F, above zero; Damping, F, at least a hundredth and at most a
// thousand times Capacitance; Resistance, Ω, from a thousandth to a
// thousand times Characteristic. It is an error outside of that, and where
// Resonance is not below Frequency.
//
//	f, err := switching.InputFilter(switching.InputFilterInputs{
//		Input: Range(18V, 24V, 32V), Power: 8.5W, Frequency: 400kHz, Inductance: 4.7µH, Capacitance: 10µF, Damping: 47µF,
//	})
//	Require(f.Margin > 2, "the filter does not make the regulator oscillate")
//
// Give Input as a range: the resistance is least at its low end, with the
// most power. Common practice asks for a Margin of 2 to 3 at least.
//
// Holds for a stiff supply; the loss of inductor and capacitor damps further
// and is left out. Attenuation counts the capacitance alone.
//
// Source: R. D. Middlebrook, Input filter considerations in design and
// application of switching regulators, IEEE IAS 1976 (criterion); R. W.
// Erickson, Optimal single resistor damping of input filters, APEC 1999
// (damping), both from memory.
//
// Caution: too little resistance damps as badly as too much. The criterion is
// sufficient: a filter that fails it may still be stable, but then only a
// look at the loop with the filter says so.
func InputFilter(in InputFilterInputs) (InputFilterResult, error) {
	const function = "switching.InputFilter"
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Power.Positive("Power", in.Power),
		argument.Frequency.Positive("Frequency", in.Frequency),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Capacitance.Positive("Damping", in.Damping),
		argument.Resistance.Optional("Resistance", in.Resistance),
	); err != nil {
		return InputFilterResult{}, err
	}
	one, two, three, four := units.Number(1), units.Number(2), units.Number(3), units.Number(4)
	negativeResistance := in.Input.Mul(in.Input).Div(in.Power)
	characteristic := units.Sqrt(in.Inductance.Div(in.Capacitance))
	resonance := one.Div(two.Mul(units.Pi).Mul(units.Sqrt(in.Inductance.Mul(in.Capacitance))))
	ratio := in.Damping.Div(in.Capacitance)
	if err := argument.First(function,
		argument.Above("Frequency", in.Frequency, "the filter's resonance", resonance, "below it a filter does not filter; raise Inductance or Capacitance"),
		argument.AtLeast("Damping/Capacitance", ratio, "a hundredth", units.Number(0.01), "so little does not damp; raise Damping, usually to four times Capacitance"),
		argument.AtMost("Damping/Capacitance", ratio, "a thousandfold", units.Number(1000), "beside so much the other does not count; write what filters as Capacitance"),
	); err != nil {
		return InputFilterResult{}, err
	}
	numerator := two.Add(ratio).Mul(four.Add(three.Mul(ratio)))
	denominator := two.Mul(ratio).Mul(ratio).Mul(four.Add(ratio))
	bestResistance := characteristic.Mul(units.Sqrt(numerator.Div(denominator)))
	resistance := bestResistance
	if argument.Given(in.Resistance) {
		resistance = in.Resistance
	}
	relative := resistance.Div(characteristic)
	if err := argument.First(function,
		argument.AtLeast("Resistance", resistance, "a thousandth of the filter's impedance", characteristic.Mul(units.Number(0.001)), "so little does not damp; leave Resistance out for the best"),
		argument.AtMost("Resistance", resistance, "a thousand times the filter's impedance", characteristic.Mul(units.Number(1000)), "so much does not damp; leave Resistance out for the best"),
	); err != nil {
		return InputFilterResult{}, err
	}
	height := units.Lanewise("the largest impedance", ratio, func(x []float64) float64 { return impedancePeak(x[0], x[1]) }, ratio, relative)
	largestImpedance := characteristic.Mul(height)
	times := in.Frequency.Div(resonance)
	return InputFilterResult{
		NegativeResistance: negativeResistance,
		Characteristic:     characteristic,
		Resonance:          resonance,
		Ratio:              ratio,
		BestResistance:     bestResistance,
		Resistance:         resistance,
		LargestImpedance:   largestImpedance,
		Margin:             negativeResistance.Div(largestImpedance),
		Attenuation:        times.Mul(times).Sub(one),
	}, nil
}

// impedancePeak is the largest impedance of inductance and capacitance, both
// 1, in parallel with a damping capacitance n in series with a resistance r.
// It lies between the resonance of both capacitances and that of one.
//
// Its admittance at ω is j(ω − 1/ω) + jωn/(1 + jωnr).
func impedancePeak(n, r float64) float64 {
	impedance := func(w float64) float64 {
		s := w * n * r
		d := 1 + s*s
		return 1 / math.Hypot(w*n*s/d, w-1/w+w*n/d)
	}
	// The largest of a few points, then a golden section around it.
	const points = 24
	low, ratio := 1/math.Sqrt(1+n), math.Pow(1+n, 0.5/points)
	best := 0
	at := func(i int) float64 { return low * math.Pow(ratio, float64(i)) }
	for i := range points + 1 {
		if impedance(at(i)) > impedance(at(best)) {
			best = i
		}
	}
	a, b := at(max(best-1, 0)), at(min(best+1, points))
	const golden = 0.6180339887498949
	for range 45 {
		c, d := b-golden*(b-a), a+golden*(b-a)
		if impedance(c) > impedance(d) {
			b = d
		} else {
			a = c
		}
	}
	return impedance((a + b) / 2)
}
