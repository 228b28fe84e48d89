package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ReverseDiodeInputs are the arguments of ReverseDiode.
type ReverseDiodeInputs struct {
	Supply   units.Quantity // V
	Load     units.Quantity // largest current, A
	Forward  units.Quantity // drop of the diode at Load, V
	Leakage  units.Quantity // of the diode in reverse, hot, A; left out: none
	Rating   units.Quantity // reverse voltage that the diode survives, V
	Reversed units.Quantity // size of the reversed supply, V; left out: Supply
	Held     units.Quantity // voltage that the capacitors behind still hold then, V; left out: none
}

// ReverseDiodeResult is what ReverseDiode finds.
type ReverseDiodeResult struct {
	Output         units.Quantity // voltage behind the diode at Load, V
	Loss           units.Quantity // in the diode at Load, W
	Share          units.Quantity // of the power that the diode takes, no unit
	ReverseVoltage units.Quantity // across the diode with the supply reversed, V
	Margin         units.Quantity // of Rating above ReverseVoltage, V
	LeakageLoss    units.Quantity // in the diode with the supply reversed, W
}

// ReverseDiode computes a diode in series with the supply that blocks when
// the supply is reversed.
//
//	Output         = supply − forward
//	Loss           = forward · load
//	Share          = forward/supply
//	ReverseVoltage = reversed + held
//	Margin         = rating − ReverseVoltage
//	LeakageLoss    = leakage · ReverseVoltage
//
// Arguments: see ReverseDiodeInputs; Supply, Forward and Rating, V, above
// zero, the others not below. It is an error outside of that, where Supply is
// not above Forward, and where ReverseVoltage is above Rating.
//
//	d, err := protect.ReverseDiode(protect.ReverseDiodeInputs{Supply: 24V, Load: 2A, Forward: 0.45V, Leakage: 5mA, Rating: 60V})
//	// d.Loss: 900 mW; d.ReverseVoltage: 24 V
//
// Holds for the drop at Load and at the temperature for which Forward is given.
//
// Source: Kirchhoff's voltage law.
//
// Caution: a Schottky diode's leakage doubles every ten kelvins or so: a
// hot one that blocks can heat itself to its end. A surge of the other
// polarity adds to ReverseVoltage; put a clamp before the diode.
func ReverseDiode(in ReverseDiodeInputs) (ReverseDiodeResult, error) {
	const function = "protect.ReverseDiode"
	reversed, held, leakage := in.Supply, argument.Voltage.OrZero(in.Held), argument.Current.OrZero(in.Leakage)
	if argument.Given(in.Reversed) {
		reversed = in.Reversed
	}
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Current.NotNegative("Load", in.Load),
		argument.Voltage.Positive("Forward", in.Forward),
		argument.Current.NotNegative("Leakage", leakage),
		argument.Voltage.Positive("Rating", in.Rating),
		argument.Voltage.NotNegative("Reversed", reversed),
		argument.Voltage.NotNegative("Held", held),
	); err != nil {
		return ReverseDiodeResult{}, err
	}
	reverseVoltage := reversed.Add(held)
	if err := argument.First(function,
		argument.Above("Supply", in.Supply, "Forward", in.Forward, "nothing is left behind the diode; raise Supply"),
		atMost("the reverse voltage", reverseVoltage, "Rating", in.Rating, "the diode breaks down; choose one with a higher Rating, or clamp Reversed"),
	); err != nil {
		return ReverseDiodeResult{}, err
	}
	output := in.Supply.Sub(in.Forward)
	loss := in.Forward.Mul(in.Load)
	share := in.Forward.Div(in.Supply)
	margin := in.Rating.Sub(reverseVoltage)
	leakageLoss := argument.Power.OrZero(none)
	if argument.Given(in.Leakage) {
		leakageLoss = in.Leakage.Mul(reverseVoltage)
	}
	return ReverseDiodeResult{
		Output:         output,
		Loss:           loss,
		Share:          share,
		ReverseVoltage: reverseVoltage,
		Margin:         margin,
		LeakageLoss:    leakageLoss,
	}, nil
}

// ReverseSwitchInputs are the arguments of ReverseSwitch.
type ReverseSwitchInputs struct {
	Supply       units.Quantity // V
	Load         units.Quantity // largest current, A
	Resistance   units.Quantity // of the transistor that is on, hot, Ω
	Drive        units.Quantity // voltage that drives the gate, against the source, V; left out: Supply
	Needed       units.Quantity // between gate and source for Resistance, V
	GateRating   units.Quantity // largest between gate and source, V
	GateClamp    units.Quantity // zener voltage between gate and source, V; left out: no clamp
	GateResistor units.Quantity // from the gate to ground or to the driver, Ω; with a clamp
	BodyDiode    units.Quantity // its drop at Load, until the gate is driven, V; left out: 1 V
	Rating       units.Quantity // between drain and source, V
	Leakage      units.Quantity // of the transistor that is off, hot, A; left out: none
	Reversed     units.Quantity // size of the reversed supply, V; left out: Supply
	Held         units.Quantity // voltage that the capacitors behind still hold then, V; left out: none
}

// ReverseSwitchResult is what ReverseSwitch finds.
type ReverseSwitchResult struct {
	Gate           units.Quantity // between gate and source, V
	GateMargin     units.Quantity // of GateRating above Gate, V
	DriveMargin    units.Quantity // of Gate above Needed, V
	ClampCurrent   units.Quantity // through the gate's clamp, A
	Drop           units.Quantity // at Load, V
	Output         units.Quantity // voltage behind the transistor at Load, V
	Loss           units.Quantity // in the transistor at Load, W
	StartLoss      units.Quantity // in its body diode at Load, until the gate is driven, W
	ReverseVoltage units.Quantity // across the transistor with the supply reversed, V
	Margin         units.Quantity // of Rating above ReverseVoltage, V
	LeakageLoss    units.Quantity // in it with the supply reversed, W
}

// ReverseSwitch computes a MOSFET that blocks when the supply is reversed: its
// body diode lets the current through until the gate is driven, and then the
// channel bridges it.
//
//	P channel, in the positive lead:  drain at the supply, source at the load, gate to ground
//	N channel, in the negative lead:  drain at the supply's minus, source at the load's, gate to plus
//	N channel, in the positive lead:  source at the supply, drain at the load, gate from a driver
//
//	Gate           = drive, not above gate clamp
//	GateMargin     = gate rating − Gate
//	DriveMargin    = Gate − needed
//	ClampCurrent   = (drive − gate clamp)/gate resistor, not below 0
//	Drop           = load · resistance
//	Output         = supply − Drop
//	Loss           = load · Drop
//	StartLoss      = load · body diode
//	ReverseVoltage = reversed + held
//	Margin         = rating − ReverseVoltage
//	LeakageLoss    = leakage · ReverseVoltage
//
// Arguments: see ReverseSwitchInputs; Supply, Resistance, Needed, GateRating
// and Rating above zero; GateResistor with GateClamp. Drive is left out for the
// first two circuits, where the supply drives the gate. It is an error
// outside of that, and where Gate is above GateRating or below Needed, Drop not
// below Supply, or ReverseVoltage above Rating.
//
//	s, err := protect.ReverseSwitch(protect.ReverseSwitchInputs{
//		Supply: Range(18V, 24V, 32V), Load: 2A, Resistance: 20mΩ, Needed: 10V, GateRating: 20V,
//		GateClamp: 12V ± 5%, GateResistor: 100kΩ, Rating: 60V,
//	})
//
// Holds for the settled state. Give Resistance at the junction's temperature,
// some 1.6 times that at 25 °C for 125 °C.
//
// Source: Kirchhoff's laws; the circuits are common practice.
//
// Caution: the transistor is in upside down on purpose, so that its body
// diode conducts in operation. The P-channel circuit blocks a reversed supply
// but not a current back into a supply that is shorted or falls: the channel
// stays on for both directions. In the negative lead Drop shifts the ground of
// the board against that of the supply.
func ReverseSwitch(in ReverseSwitchInputs) (ReverseSwitchResult, error) {
	const function = "protect.ReverseSwitch"
	drive, reversed := in.Supply, in.Supply
	if argument.Given(in.Drive) {
		drive = in.Drive
	}
	if argument.Given(in.Reversed) {
		reversed = in.Reversed
	}
	held, leakage, bodyDiode := argument.Voltage.OrZero(in.Held), argument.Current.OrZero(in.Leakage), orElse(in.BodyDiode, units.MustParse("1 V"))
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Current.NotNegative("Load", in.Load),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Voltage.Positive("Drive", drive),
		argument.Voltage.Positive("Needed", in.Needed),
		argument.Voltage.Positive("GateRating", in.GateRating),
		argument.Voltage.Positive("BodyDiode", bodyDiode),
		argument.Voltage.Positive("Rating", in.Rating),
		argument.Current.NotNegative("Leakage", leakage),
		argument.Voltage.NotNegative("Reversed", reversed),
		argument.Voltage.NotNegative("Held", held),
	); err != nil {
		return ReverseSwitchResult{}, err
	}
	gate, clampCurrent := drive, argument.Current.OrZero(none)
	if argument.Given(in.GateClamp) || argument.Given(in.GateResistor) {
		if err := argument.First(function,
			argument.Voltage.Positive("GateClamp", in.GateClamp),
			argument.Resistance.Positive("GateResistor", in.GateResistor),
		); err != nil {
			return ReverseSwitchResult{}, err
		}
		gate = units.Min(drive, in.GateClamp)
		clampCurrent = drive.Sub(gate).Div(in.GateResistor)
	}
	drop := in.Load.Mul(in.Resistance)
	reverseVoltage := reversed.Add(held)
	if err := argument.First(function,
		atMost("the gate voltage", gate, "GateRating", in.GateRating, "the gate breaks through; add a GateClamp below it, with a GateResistor"),
		atLeast("the gate voltage", gate, "Needed", in.Needed, "the transistor is not on; choose one for less gate voltage, a higher GateClamp, or a driver"),
		argument.Above("Supply", in.Supply, "the drop of Load in Resistance", drop, "nothing is left behind the transistor; lower Load or Resistance"),
		atMost("the reverse voltage", reverseVoltage, "Rating", in.Rating, "the transistor breaks down; choose one with a higher Rating, or clamp Reversed"),
	); err != nil {
		return ReverseSwitchResult{}, err
	}
	gateMargin := in.GateRating.Sub(gate)
	driveMargin := gate.Sub(in.Needed)
	output := in.Supply.Sub(drop)
	loss := in.Load.Mul(drop)
	startLoss := in.Load.Mul(bodyDiode)
	margin := in.Rating.Sub(reverseVoltage)
	leakageLoss := argument.Power.OrZero(none)
	if argument.Given(in.Leakage) {
		leakageLoss = in.Leakage.Mul(reverseVoltage)
	}
	return ReverseSwitchResult{
		Gate:           gate,
		GateMargin:     gateMargin,
		DriveMargin:    driveMargin,
		ClampCurrent:   clampCurrent,
		Drop:           drop,
		Output:         output,
		Loss:           loss,
		StartLoss:      startLoss,
		ReverseVoltage: reverseVoltage,
		Margin:         margin,
		LeakageLoss:    leakageLoss,
	}, nil
}
