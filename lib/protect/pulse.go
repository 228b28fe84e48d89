package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PulseInputs are the arguments of PulseIntegral.
type PulseInputs struct {
	Shape string         // "rectangle", "triangle", "trapezoid", "half sine", "square law" or "exponential"
	Peak  units.Quantity // of the current, A
	Base  units.Quantity // at the low end of a trapezoid, A; for no other shape
	Time  units.Quantity // length, s; of an exponential its time constant
}

// PulseResult is what PulseIntegral finds.
type PulseResult struct {
	Factor   units.Quantity // of the shape, no unit
	Integral units.Quantity // of the squared current over the time, A²·s
}

// PulseIntegral computes the Joule integral, I²t, of a pulse of current.
//
//	Factor   = 1 of a rectangle, 1/3 of a triangle or ramp, 1/2 of half a sine,
//	           1/5 of a square law (i = k · t²), 1/2 of an exponential
//	Factor   = (1 + x + x²)/3 of a trapezoid, with x = base/peak
//	Integral = Factor · peak² · time
//
// Arguments: see PulseInputs; Peak, A, and Time, s, above zero; Base, A, not
// below zero and not above Peak. It is an error outside of that.
//
//	p, err := protect.PulseIntegral(protect.PulseInputs{Shape: "exponential", Peak: 10A, Time: 5ms})
//	// p.Integral: 0.25 A²·s
//
// Holds for the shapes named; the exponential is taken to its end. Measure the
// integral of another shape with an oscilloscope.
//
// Source: integral of the squared current over each shape.
//
// Caution: an exponential is often given by the time to its half; its time
// constant is 1.44 times that.
func PulseIntegral(in PulseInputs) (PulseResult, error) {
	const function = "protect.PulseIntegral"
	if err := argument.First(function,
		oneOf("Shape", in.Shape, "rectangle", "triangle", "trapezoid", "half sine", "square law", "exponential"),
		argument.Current.Positive("Peak", in.Peak),
		argument.Time.Positive("Time", in.Time),
	); err != nil {
		return PulseResult{}, err
	}
	if err := argument.First(function, in.checkBase()); err != nil {
		return PulseResult{}, err
	}
	factor := shapeFactor(in.Shape, in.Base, in.Peak)
	integral := factor.Mul(in.Peak).Mul(in.Peak).Mul(in.Time)
	return PulseResult{Factor: factor, Integral: integral}, nil
}

// checkBase checks the base of a trapezoid, and that no other shape has one.
func (in PulseInputs) checkBase() error {
	if in.Shape != "trapezoid" {
		return unused("Base", in.Base, "only a trapezoid has one: leave it out, or write Shape: \"trapezoid\"")
	}
	if err := argument.Current.NotNegative("Base", in.Base); err != nil {
		return err
	}
	return argument.AtMost("Base", in.Base, "Peak", in.Peak, "write the higher end as Peak")
}

// shapeFactor is the mean square of a pulse over the square of its peak.
func shapeFactor(shape string, base, peak units.Quantity) units.Quantity {
	switch shape {
	case "triangle":
		return units.Number(1.0 / 3)
	case "square law":
		return units.Number(0.2)
	case "half sine", "exponential":
		return units.Number(0.5)
	case "trapezoid":
		x := base.Div(peak)
		return units.Number(1).Add(x).Add(x.Mul(x)).Div(units.Number(3))
	}
	return units.Number(1)
}

// CapacitorPulseInputs are the arguments of CapacitorPulse.
type CapacitorPulseInputs struct {
	Voltage     units.Quantity // across the capacitor, or that it is charged to, V
	Capacitance units.Quantity // F
	Resistance  units.Quantity // of the whole path, Ω
}

// CapacitorPulseResult is what CapacitorPulse finds.
type CapacitorPulseResult struct {
	Peak         units.Quantity // of the current, A
	TimeConstant units.Quantity // s
	Integral     units.Quantity // I²t, A²·s
}

// CapacitorPulse computes the Joule integral, I²t, of charging a capacitor
// through a resistance, or of discharging it.
//
//	Peak         = voltage/resistance
//	TimeConstant = resistance · capacitance
//	Integral     = Peak² · TimeConstant/2
//
// Arguments: see CapacitorPulseInputs; Voltage, V, Capacitance, F, and
// Resistance, Ω, above zero. It is an error outside of that.
//
//	p, err := protect.CapacitorPulse(protect.CapacitorPulseInputs{Voltage: 24V, Capacitance: 470µF, Resistance: 0.3Ω})
//	// p.Integral: 0.4512 A²·s
//
// Holds without inductance. With inductance the peak is lower (HotPlug finds
// it) and the integral the same: the resistance turns capacitance · voltage²/2
// into heat in any case.
//
// Source: discharge of a capacitor, energy in it.
//
// Caution: the resistance counts source, wire, contacts, fuse and the
// capacitor's ESR; the least of each is the worst.
func CapacitorPulse(in CapacitorPulseInputs) (CapacitorPulseResult, error) {
	if err := argument.First("protect.CapacitorPulse",
		argument.Voltage.Positive("Voltage", in.Voltage),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.Positive("Resistance", in.Resistance),
	); err != nil {
		return CapacitorPulseResult{}, err
	}
	peak := in.Voltage.Div(in.Resistance)
	timeConstant := in.Resistance.Mul(in.Capacitance)
	integral := peak.Mul(peak).Mul(timeConstant).Div(units.Number(2))
	return CapacitorPulseResult{Peak: peak, TimeConstant: timeConstant, Integral: integral}, nil
}
