package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LoadStepInputs are the arguments of LoadStep and LoadStepCapacitor; the
// first leaves out Allowed, the second Capacitance.
type LoadStepInputs struct {
	Step        units.Quantity // of the load current, A
	Response    units.Quantity // time until the regulator carries it, s
	Capacitance units.Quantity // that is left of the output capacitor, F
	ESR         units.Quantity // of the output capacitor, Ω; left out: none
	Allowed     units.Quantity // dip that the load bears, V
}

// LoadStepResult is what LoadStep and LoadStepCapacitor find.
type LoadStepResult struct {
	Jump        units.Quantity // at once, over the ESR, V
	Sag         units.Quantity // while the capacitor carries the step alone, V
	Dip         units.Quantity // both together, V
	Capacitance units.Quantity // F
}

// LoadStep computes how far a sudden load pulls the output down before the
// regulator answers.
//
//	Jump = step · ESR
//	Sag  = step · response/capacitance
//	Dip  = Jump + Sag
//
// Arguments: see LoadStepInputs; Step, Response and Capacitance above zero,
// ESR not below; Allowed is left out. It is an error outside of that.
//
//	s, err := linear.LoadStep(linear.LoadStepInputs{Step: 200mA, Response: 5µs, Capacitance: 10µF, ESR: 20mΩ})
//	// s.Jump: 4 mV; s.Sag: 100 mV; s.Dip: 104 mV
//
// Holds for a step much faster than Response, in which the capacitor carries
// all of it; the regulator mostly begins earlier, so the dip is an upper
// bound. A load that goes away lifts the output by as much, and nothing but
// the load left over takes it down again.
//
// Source: charge of a capacitor; the two parts as in the data sheet TPS707xx,
// SLVS291, ESR and transient response.
//
// Caution: Response is seldom stated; read it from a drawn load transient, or
// take one over the loop's bandwidth. Inductance of leads and capacitor adds
// a spike, L·di/dt, that only capacitors at the load take away.
func LoadStep(in LoadStepInputs) (LoadStepResult, error) {
	const function = "linear.LoadStep"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		argument.Unset("Allowed", in.Allowed, "leave it out, or use LoadStepCapacitor to find the capacitor for it"),
		argument.Current.Positive("Step", in.Step),
		argument.Time.Positive("Response", in.Response),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return LoadStepResult{}, err
	}
	jump := in.Step.Mul(esr)
	sag := in.Step.Mul(in.Response).Div(in.Capacitance)
	dip := jump.Add(sag)
	return LoadStepResult{Jump: jump, Sag: sag, Dip: dip, Capacitance: in.Capacitance}, nil
}

// LoadStepCapacitor finds the output capacitor with which a load step pulls
// the output down by just what is allowed.
//
//	Jump        = step · ESR
//	Sag         = allowed − Jump
//	Capacitance = step · response/Sag
//
// Arguments: see LoadStepInputs; Step, Response and Allowed above zero, ESR
// not below; Capacitance is left out. It is an error outside of that, and
// where the ESR alone takes all that is allowed.
//
//	s, err := linear.LoadStepCapacitor(linear.LoadStepInputs{Step: 200mA, Response: 5µs, ESR: 20mΩ, Allowed: 100mV})
//	// s.Capacitance: 10.42 µF
//
// Where it holds, source and cautions: as LoadStep.
func LoadStepCapacitor(in LoadStepInputs) (LoadStepResult, error) {
	const function = "linear.LoadStepCapacitor"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		argument.Unset("Capacitance", in.Capacitance, "leave it out, or use LoadStep to see what it does"),
		argument.Current.Positive("Step", in.Step),
		argument.Time.Positive("Response", in.Response),
		argument.Resistance.NotNegative("ESR", esr),
		argument.Voltage.Positive("Allowed", in.Allowed),
	); err != nil {
		return LoadStepResult{}, err
	}
	jump := in.Step.Mul(esr)
	if err := argument.First(function, argument.Above("Allowed", in.Allowed, "what the ESR alone takes", jump, "lower the ESR or the step")); err != nil {
		return LoadStepResult{}, err
	}
	sag := in.Allowed.Sub(jump)
	capacitance := in.Step.Mul(in.Response).Div(sag)
	return LoadStepResult{Jump: jump, Sag: sag, Dip: in.Allowed, Capacitance: capacitance}, nil
}
