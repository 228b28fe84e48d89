package ripple

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LCInputs are the arguments of LC.
type LCInputs struct {
	Inductance  units.Quantity // in series, at its current, H
	Winding     units.Quantity // resistance of the inductor and of the source, Ω; left out: none
	Capacitance units.Quantity // across the output, with its bias, F
	ESR         units.Quantity // of the capacitor, Ω; left out: none
	Load        units.Quantity // across the output, Ω; left out: none
	Frequency   units.Quantity // of what is to be filtered, Hz
}

// LCResult is what LC finds.
type LCResult struct {
	Characteristic units.Quantity // impedance of inductance and capacitance, Ω
	Resonance      units.Quantity // of the two, Hz
	LossShare      units.Quantity // of what damps, the inverse of the quality factor, no unit
	Real           units.Quantity // of the input over the output at Frequency, no unit
	Imaginary      units.Quantity // of the same, no unit
	Transfer       units.Quantity // what is left at Frequency, no unit
	Attenuation    units.Quantity // at Frequency, dB: below zero where the filter makes it larger
}

// LC computes a low-pass filter of one inductor and one capacitor.
//
//	source ── inductance ── winding ──┬────────┬── output
//	                             capacitance  load
//	                                 ESR       │
//	source ───────────────────────────┴────────┴── 0 V
//
//	Characteristic = √(inductance/capacitance)
//	Resonance      = 1/(2π · √(inductance · capacitance))
//	LossShare      = (winding + ESR)/Characteristic + Characteristic/load
//	Conductance    = 1/load + ESR/(ESR² + reactance²)
//	Susceptance    = reactance/(ESR² + reactance²)
//	Real           = 1 + winding · Conductance − 2π · frequency · inductance · Susceptance
//	Imaginary      = 2π · frequency · inductance · Conductance + winding · Susceptance
//	Transfer       = 1/√(Real² + Imaginary²)
//	Attenuation    = −20 dB · lg(Transfer)
//
// with reactance = 1/(2π · frequency · capacitance).
//
// Arguments: Inductance, H, Capacitance, F, and Frequency, Hz, above zero;
// Winding and ESR, Ω, not below zero; Load, Ω, above zero or left out. It is
// an error outside of that, and for a filter without any loss at its
// resonance, where the output has no limit.
//
//	f, err := ripple.LC(ripple.LCInputs{Inductance: 10µH, Capacitance: 10µF, ESR: 5mΩ, Load: 10Ω, Frequency: 400kHz})
//	// LossShare of 0.1 is a peak of 10 at the resonance
//
// Transfer is exact. LossShare is that of small losses, and the peak at
// Resonance then 1/LossShare; Filter finds peaks exactly.
//
// Source: complex voltage divider.
//
// Caution: an LC filter that is not damped rings at every step and makes
// ripple at its resonance larger: LossShare of about 1 is well damped. A
// converter behind it is a negative resistance that takes damping away
// (stepdown.InputFilter). Above the inductor's own resonance it is a
// capacitor.
func LC(in LCInputs) (LCResult, error) {
	const function = "ripple.LC"
	winding, esr := argument.Resistance.OrZero(in.Winding), argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Resistance.NotNegative("Winding", winding),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
		argument.Resistance.Optional("Load", in.Load),
		argument.Frequency.Positive("Frequency", in.Frequency),
	); err != nil {
		return LCResult{}, err
	}
	one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
	characteristic := units.Sqrt(in.Inductance.Div(in.Capacitance))
	resonance := one.Div(turn.Mul(units.Sqrt(in.Inductance.Mul(in.Capacitance))))
	loadConductance := argument.Transconductance.OrZero(none)
	if argument.Given(in.Load) {
		loadConductance = one.Div(in.Load)
	}
	lossShare := winding.Add(esr).Div(characteristic).Add(characteristic.Mul(loadConductance))
	inductive := turn.Mul(in.Frequency).Mul(in.Inductance)
	reactance := one.Div(turn.Mul(in.Frequency).Mul(in.Capacitance))
	size := esr.Mul(esr).Add(reactance.Mul(reactance))
	conductance := loadConductance.Add(esr.Div(size))
	susceptance := reactance.Div(size)
	real := one.Add(winding.Mul(conductance)).Sub(inductive.Mul(susceptance))
	imaginary := inductive.Mul(conductance).Add(winding.Mul(susceptance))
	inverse := units.Sqrt(real.Mul(real).Add(imaginary.Mul(imaginary)))
	if err := argument.First(function, argument.AtLeast("what the input is over the output", inverse, "a trillionth", units.Number(1e-12), "at its resonance a filter without loss has no limit; give Winding, ESR or Load")); err != nil {
		return LCResult{}, err
	}
	transfer := one.Div(inverse)
	attenuation := units.VoltageGain(inverse)
	return LCResult{
		Characteristic: characteristic,
		Resonance:      resonance,
		LossShare:      lossShare,
		Real:           real,
		Imaginary:      imaginary,
		Transfer:       transfer,
		Attenuation:    attenuation,
	}, nil
}

// DampingInputs are the arguments of Damping.
type DampingInputs struct {
	Inductance  units.Quantity // of the filter, H
	Capacitance units.Quantity // of the filter, F
	Damping     units.Quantity // capacitance in series with the damping resistor, F
}

// DampingResult is what Damping finds.
type DampingResult struct {
	Characteristic   units.Quantity // impedance of inductance and capacitance, Ω
	Resonance        units.Quantity // of the two, Hz
	Ratio            units.Quantity // of the damping capacitance to the other, no unit
	Resistance       units.Quantity // that damps best, the ESR of the damping capacitor with it, Ω
	LargestImpedance units.Quantity // of the output then, over all frequencies, Ω
}

// Damping finds the resistor that, in series with a second capacitor across
// the output, damps an LC filter best: the peak of its output impedance is
// lowest.
//
//	source ── inductance ──┬───────────┬── output
//	                  capacitance  resistance
//	                       │        damping
//	source ────────────────┴───────────┴── 0 V
//
//	Characteristic   = √(inductance/capacitance)
//	Resonance        = 1/(2π · √(inductance · capacitance))
//	Ratio            = damping/capacitance
//	Resistance       = Characteristic · √((2 + Ratio) · (4 + 3 · Ratio)/(2 · Ratio² · (4 + Ratio)))
//	LargestImpedance = Characteristic · √(2 · (2 + Ratio))/Ratio
//
// Arguments: Inductance, H, and Capacitance, F, above zero; Damping, F, at
// least a hundredth and at most a thousand times Capacitance. It is an error
// outside of that.
//
//	d, err := ripple.Damping(ripple.DampingInputs{Inductance: 10µH, Capacitance: 10µF, Damping: 47µF})
//	// d.Resistance: 0.44 Ω, which an electrolytic capacitor may bring along
//
// Holds for a filter without other losses. The best resistor for the output
// impedance is near the best for the transfer, whose peak Filter shows.
//
// Source: R. W. Erickson, Optimal single resistor damping of input filters,
// APEC 1999 (from memory).
//
// Caution: too little resistance damps as badly as too much. ESR rises tenfold
// in the cold: look at both ends with Filter.
func Damping(in DampingInputs) (DampingResult, error) {
	const function = "ripple.Damping"
	if err := argument.First(function,
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Capacitance.Positive("Damping", in.Damping),
	); err != nil {
		return DampingResult{}, err
	}
	one, two, three, four := units.Number(1), units.Number(2), units.Number(3), units.Number(4)
	ratio := in.Damping.Div(in.Capacitance)
	if err := argument.First(function,
		argument.AtLeast("Damping/Capacitance", ratio, "a hundredth", units.Number(0.01), "so little does not damp; raise Damping, usually to four times Capacitance"),
		argument.AtMost("Damping/Capacitance", ratio, "a thousandfold", units.Number(1000), "beside so much the other does not count; write what filters as Capacitance"),
	); err != nil {
		return DampingResult{}, err
	}
	characteristic := units.Sqrt(in.Inductance.Div(in.Capacitance))
	resonance := one.Div(two.Mul(units.Pi).Mul(units.Sqrt(in.Inductance.Mul(in.Capacitance))))
	numerator := two.Add(ratio).Mul(four.Add(three.Mul(ratio)))
	denominator := two.Mul(ratio).Mul(ratio).Mul(four.Add(ratio))
	resistance := characteristic.Mul(units.Sqrt(numerator.Div(denominator)))
	largestImpedance := characteristic.Mul(units.Sqrt(two.Mul(two.Add(ratio)))).Div(ratio)
	return DampingResult{
		Characteristic:   characteristic,
		Resonance:        resonance,
		Ratio:            ratio,
		Resistance:       resistance,
		LargestImpedance: largestImpedance,
	}, nil
}
