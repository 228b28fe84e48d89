package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// BootstrapInputs are the arguments of Bootstrap.
type BootstrapInputs struct {
	GateCharge units.Quantity // of the high switch, C
	Leakage    units.Quantity // of driver and gate from the capacitor, A; left out: none
	Frequency  units.Quantity // at which it is charged again, the lowest, Hz
	Droop      units.Quantity // allowed between two charges, V
	Resistance units.Quantity // through which it is charged, Ω; left out: none
}

// BootstrapResult is what Bootstrap finds.
type BootstrapResult struct {
	Charge      units.Quantity // taken in each period, C
	Capacitance units.Quantity // at least, F
	Refresh     units.Quantity // time that the low side must conduct to recharge it, s
}

// Bootstrap finds the capacitor that feeds the driver of the high switch,
// and the time it needs to recharge.
//
//	Charge      = gate charge + leakage/frequency
//	Capacitance = Charge/droop
//	Refresh     = 3 · resistance · Capacitance
//
// Arguments: GateCharge, C, Frequency, Hz, and Droop, V, above zero; Leakage,
// A, and Resistance, Ω, not below zero. It is an error outside of that.
//
//	b, err := stepdown.Bootstrap(stepdown.BootstrapInputs{GateCharge: 10nC, Frequency: 400kHz, Droop: 100mV})
//	// b.Capacitance: 100 nF
//
// Three time constants recharge 95 %. Take the lowest frequency that occurs:
// at light load, or in dropout, where some regulators skip off-times.
//
// Source: definition of capacitance; common practice.
//
// Caution: hold Refresh against the shortest off-time; in dropout or at light
// load with a diode the switch node may not come down for long, and the
// capacitor runs empty. Data sheets often prescribe its value: take theirs.
func Bootstrap(in BootstrapInputs) (BootstrapResult, error) {
	leakage, resistance := argument.Current.OrZero(in.Leakage), argument.Resistance.OrZero(in.Resistance)
	if err := argument.First("stepdown.Bootstrap",
		argument.Charge.Positive("GateCharge", in.GateCharge),
		argument.Current.NotNegative("Leakage", leakage),
		argument.Frequency.Positive("Frequency", in.Frequency),
		argument.Voltage.Positive("Droop", in.Droop),
		argument.Resistance.NotNegative("Resistance", resistance),
	); err != nil {
		return BootstrapResult{}, err
	}
	charge := in.GateCharge.Add(leakage.Div(in.Frequency))
	capacitance := charge.Div(in.Droop)
	refresh := units.Number(3).Mul(resistance).Mul(capacitance)
	return BootstrapResult{Charge: charge, Capacitance: capacitance, Refresh: refresh}, nil
}
