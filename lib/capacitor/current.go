package capacitor

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Component is a part of a ripple current.
type Component struct {
	Frequency units.Quantity // Hz
	RMS       units.Quantity // A
}

// RippleCurrentResult is what RippleCurrent finds.
type RippleCurrentResult struct {
	Total       units.Quantity   // RMS value of all components, A
	Multipliers []units.Quantity // of each component's frequency, no unit
	Equivalent  units.Quantity   // current at the rating's frequency that heats alike, A
}

// RippleCurrent adds the components of a ripple current into the one at the
// frequency of the rating that heats the capacitor alike.
//
//	Total      = √(Σ RMS²)
//	Equivalent = √(Σ (RMS/multiplier)²)
//
// where a multiplier is the ripple current that the data sheet allows at a
// frequency, over that at the frequency of the rating.
//
// Arguments: components, one to 100, each with Frequency, Hz, above zero, and
// RMS, A, not below zero; multiplier, a curve from frequency to multiplier,
// best with a logarithmic axis: "frequency [Hz] log, multiplier [1]". It is an
// error outside of that, and at a frequency outside the curve: Held lets its
// ends go on.
//
//	m := Text("frequency [Hz] log, multiplier [1]\n50, 0.85\n120, 1\n1e3, 1.25\n1e4, 1.4\n1e5, 1.45")
//	i, err := capacitor.RippleCurrent([]capacitor.Component{{100Hz, r.CapacitorRMS}, {400kHz, feed.RMS}}, m.Held())
//	// i.Equivalent against the rated ripple current
//
// Holds for components of different frequencies, or of no fixed phase to one
// another. The pulse of a rectifier counts at the frequency of its
// fundamental, which is on the safe side: its harmonics heat less.
//
// Source: heat is current² times ESR, which falls with the frequency; this sum
// is in makers' guides to the life of aluminium electrolytic capacitors.
//
// Caution: data sheets print either this multiplier or its inverse, and for
// one of 120 Hz, 10 kHz or 100 kHz: at the rating's own frequency the curve
// must say 1.
func RippleCurrent(components []Component, multiplier table.Table) (RippleCurrentResult, error) {
	const function = "capacitor.RippleCurrent"
	if err := argument.First(function,
		argument.Count("the number of components", len(components), 1, 100, "write each frequency with its current"),
		multiplier.Expect("multiplier", "Hz", "1"),
	); err != nil {
		return RippleCurrentResult{}, err
	}
	squares := argument.Current.OrZero(none)
	squares = squares.Mul(squares)
	equivalents := squares
	var multipliers []units.Quantity
	for k, c := range components {
		if err := argument.First(function,
			argument.Frequency.Positive(fmt.Sprintf("Frequency of component %d", k+1), c.Frequency),
			argument.Current.NotNegative(fmt.Sprintf("RMS of component %d", k+1), c.RMS),
		); err != nil {
			return RippleCurrentResult{}, err
		}
		m, err := multiplier.At(c.Frequency)
		if err := argument.First(function, err, argument.Share.Positive(fmt.Sprintf("the multiplier of component %d", k+1), m)); err != nil {
			return RippleCurrentResult{}, err
		}
		multipliers = append(multipliers, m)
		counted := c.RMS.Div(m)
		squares = squares.Add(c.RMS.Mul(c.RMS))
		equivalents = equivalents.Add(counted.Mul(counted))
	}
	return RippleCurrentResult{Total: units.Sqrt(squares), Multipliers: multipliers, Equivalent: units.Sqrt(equivalents)}, nil
}

// ESR computes the series resistance of a capacitor from its loss factor.
//
//	ESR = tan δ/(2π · frequency · capacitance)
//
// Arguments: loss, tan δ, no unit, frequency, Hz, and capacitance, F, above
// zero. Result: Ω. It is an error outside of that.
//
//	R, err := capacitor.ESR(0.16, 120Hz, 4.7mF)   // 45 mΩ
//
// Holds at the frequency at which the loss factor was measured, 100 Hz or
// 120 Hz for electrolytic capacitors; above a few kilohertz ESR is lower.
//
// Source: definition of the loss angle (IEC 60384-1).
//
// Caution: data sheets of electrolytic capacitors print the largest loss
// factor of a new one at 20 °C; in the cold it is several times as much, at
// the end of life twice or three times.
func ESR(loss, frequency, capacitance units.Quantity) (units.Quantity, error) {
	if err := argument.First("capacitor.ESR",
		argument.Share.Positive("loss", loss),
		argument.Frequency.Positive("frequency", frequency),
		argument.Capacitance.Positive("capacitance", capacitance),
	); err != nil {
		return none, err
	}
	return loss.Div(units.Number(2).Mul(units.Pi).Mul(frequency).Mul(capacitance)), nil
}

// HeatingInputs are the arguments of Heating.
type HeatingInputs struct {
	Current    units.Quantity // RMS, at the frequency of ESR, A
	ESR        units.Quantity // hot, Ω
	Leakage    units.Quantity // direct current through it, A; left out: none
	Voltage    units.Quantity // direct voltage across it, V; only with Leakage
	Resistance units.Quantity // thermal, from core to air, K/W
	Ambient    units.Quantity // air at the capacitor, °C
}

// HeatingResult is what Heating finds.
type HeatingResult struct {
	Loss units.Quantity // W
	Rise units.Quantity // of the core above the air, K
	Core units.Quantity // temperature of the core, °C
}

// Heating computes the temperature of a capacitor's core.
//
//	Loss = current² · ESR + leakage · voltage
//	Rise = Loss · resistance
//	Core = ambient + Rise
//
// Arguments: Current, A, not below zero; ESR, Ω, and Resistance, K/W, above
// zero; Leakage, A, and Voltage, V, not below zero; Ambient, °C. It is an
// error outside of that.
//
//	h, err := capacitor.Heating(capacitor.HeatingInputs{Current: 1.1A, ESR: 45mΩ, Resistance: 25°C/W, Ambient: 60°C})
//
// Source: Joule's law; definition of thermal resistance.
//
// Caution: ESR of an electrolytic capacitor falls as it warms, which is kind,
// and rises as it ages, which is not. Heat of neighbours counts as Ambient.
func Heating(in HeatingInputs) (HeatingResult, error) {
	leakage, voltage := argument.Current.OrZero(in.Leakage), argument.Voltage.OrZero(in.Voltage)
	if err := argument.First("capacitor.Heating",
		argument.Current.NotNegative("Current", in.Current),
		argument.Resistance.Positive("ESR", in.ESR),
		argument.Current.NotNegative("Leakage", leakage),
		argument.Voltage.NotNegative("Voltage", voltage),
		argument.ThermalResistance.Positive("Resistance", in.Resistance),
		argument.Temperature("Ambient", in.Ambient),
	); err != nil {
		return HeatingResult{}, err
	}
	loss := in.Current.Mul(in.Current).Mul(in.ESR).Add(leakage.Mul(voltage))
	rise := loss.Mul(in.Resistance)
	core := in.Ambient.Add(rise)
	return HeatingResult{Loss: loss, Rise: rise, Core: core}, nil
}
