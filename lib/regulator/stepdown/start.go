package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SoftStartInputs are the arguments of SoftStart.
type SoftStartInputs struct {
	Capacitor units.Quantity // at the soft-start pin, F
	Current   units.Quantity // that the pin charges it with, A
	Reference units.Quantity // up to which the reference follows the pin, V
	Output    units.Quantity // V
	Bank      units.Quantity // whole capacitance at the output, F
}

// SoftStartResult is what SoftStart finds.
type SoftStartResult struct {
	Time          units.Quantity // until the output is up, s
	ChargeCurrent units.Quantity // that the output's capacitance takes meanwhile, A
}

// SoftStart computes how long the output takes to rise, and what its
// capacitance adds to the load meanwhile.
//
//	Time          = capacitor · reference/current
//	ChargeCurrent = bank · output/Time
//
// Arguments: Capacitor and Bank, F, Current, A, Reference and Output, V, all
// above zero. It is an error outside of that.
//
//	s, err := stepdown.SoftStart(stepdown.SoftStartInputs{
//		Capacitor: 10nF, Current: 2µA, Reference: 0.8V, Output: 5V, Bank: 66µF,
//	})
//	// s.Time: 4 ms, s.ChargeCurrent: 82.5 mA
//
// Holds for a regulator whose reference follows a pin that a constant current
// charges.
//
// Source: definition of capacitance; in many data sheets.
//
// Caution: load and ChargeCurrent together must stay below the current
// limit, else the output rises in the limit, or not at all with a regulator
// that stops on overload.
func SoftStart(in SoftStartInputs) (SoftStartResult, error) {
	if err := argument.First("stepdown.SoftStart",
		argument.Capacitance.Positive("Capacitor", in.Capacitor),
		argument.Current.Positive("Current", in.Current),
		argument.Voltage.Positive("Reference", in.Reference),
		argument.Voltage.Positive("Output", in.Output),
		argument.Capacitance.Positive("Bank", in.Bank),
	); err != nil {
		return SoftStartResult{}, err
	}
	time := in.Capacitor.Mul(in.Reference).Div(in.Current)
	chargeCurrent := in.Bank.Mul(in.Output).Div(time)
	return SoftStartResult{Time: time, ChargeCurrent: chargeCurrent}, nil
}

// SoftStartCapacitor finds the capacitor for a wanted time of rise.
//
//	capacitor = current · time/reference
//
// Arguments: time, s, current, A, that the pin charges it with, and
// reference, V, all above zero. Result: a capacitance, F. It is an error
// outside of that.
//
//	Css := AtLeast(E6, stepdown.SoftStartCapacitor(4ms, 2µA, 0.8V))   // ideal 10 nF
//
// Where it holds, source and cautions: as SoftStart.
func SoftStartCapacitor(time, current, reference units.Quantity) (units.Quantity, error) {
	if err := argument.First("stepdown.SoftStartCapacitor",
		argument.Time.Positive("time", time),
		argument.Current.Positive("current", current),
		argument.Voltage.Positive("reference", reference),
	); err != nil {
		return none, err
	}
	capacitor := current.Mul(time).Div(reference)
	return capacitor, nil
}

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
