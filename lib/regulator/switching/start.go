package switching

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
//	s, err := switching.SoftStart(switching.SoftStartInputs{
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
	if err := argument.First("switching.SoftStart",
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
//	Css := AtLeast(E6, switching.SoftStartCapacitor(4ms, 2µA, 0.8V))   // ideal 10 nF
//
// Where it holds, source and cautions: as SoftStart.
func SoftStartCapacitor(time, current, reference units.Quantity) (units.Quantity, error) {
	if err := argument.First("switching.SoftStartCapacitor",
		argument.Time.Positive("time", time),
		argument.Current.Positive("current", current),
		argument.Voltage.Positive("reference", reference),
	); err != nil {
		return none, err
	}
	capacitor := current.Mul(time).Div(reference)
	return capacitor, nil
}
