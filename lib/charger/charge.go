package charger

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// ChargeInputs are the arguments of Charge.
type ChargeInputs struct {
	OpenCircuit table.Table    // open-circuit voltage of the battery over state of charge, % and V, rising
	Resistance  units.Quantity // of the battery and the path to it, Ω
	Capacity    units.Quantity // from empty to full, Ah
	Start       units.Quantity // state of charge, %; left out: that of the first row
	FullVoltage units.Quantity // voltage at which the charger stays, V
	Current     units.Quantity // constant current, A
	Termination units.Quantity // current at which the charge ends, A
	Precharge   units.Quantity // current for a battery below Threshold, A; left out: none
	Threshold   units.Quantity // voltage at the terminals up to which Precharge flows, V; with Precharge
}

// ChargeResult is what Charge finds.
type ChargeResult struct {
	PrechargeTime units.Quantity // s
	ConstantTime  units.Quantity // at constant current, s
	FadingTime    units.Quantity // at constant voltage, s
	Time          units.Quantity // of the whole charge, s
	Start         units.Quantity // state of charge, no unit
	End           units.Quantity // state of charge, no unit
	Charge        units.Quantity // put in, Ah
	Stored        units.Quantity // energy, Wh
	Lost          units.Quantity // energy in Resistance, Wh
	Energy        units.Quantity // that the charger gave, Wh
}

// Charge computes how long a lithium battery takes at constant current and
// then at constant voltage, and what energy goes where.
//
//	precharge until  open circuit = threshold − precharge · resistance
//	constant until   open circuit = full voltage − current · resistance
//	fading until     open circuit = full voltage − termination · resistance
//	PrechargeTime = capacity · (its step of the state of charge)/precharge
//	ConstantTime  = capacity · (its step)/current
//	FadingTime    = sum over the pieces of the table of
//	                resistance · capacity · Δstate/Δvoltage · ln(current at its start/at its end)
//	Stored        = capacity · ∫ open circuit, Lost = ∫ current² · resistance
//	Energy        = Stored + Lost
//
// Arguments: see ChargeInputs; all that is given above zero; the table rises;
// Termination below Current; Start inside the table, and the voltage at the end
// too. It is an error outside of that, and where the battery is charged already: Start not below End.
//
//	t, err := charger.Charge(charger.ChargeInputs{
//		OpenCircuit: curve, Resistance: 200mΩ, Capacity: 500mAh, FullVoltage: 4.2V, Current: 250mA, Termination: 25mA,
//	})
//
// Holds for a battery that is a voltage over its state of charge behind one
// resistance, straight between the rows of the table, in which the current
// fades exponentially on each piece. Each regime ends where the next begins: a
// battery with a high resistance goes to constant voltage at once. Real cells
// fade longer, as their diffusion is no resistance: allow a fifth more, as is
// common practice, or measure.
//
// Source: the linear differential equation of a capacitor through a resistance,
// on each piece; the order of the phases: IEC 61960 and charger data sheets,
// from memory.
//
// Caution: the cell's data sheet bounds Current, FullVoltage and temperature. Above
// FullVoltage by 1 % cells age fast, by more they burn. Below 0 °C lithium plates out.
func Charge(in ChargeInputs) (ChargeResult, error) {
	const function = "charger.Charge"
	if err := checkCharge(function, in); err != nil {
		return ChargeResult{}, err
	}
	back, err := in.OpenCircuit.Inverse()
	if err != nil {
		return ChargeResult{}, argument.First(function, err)
	}
	stateAt := func(voltage units.Quantity) units.Quantity {
		if err == nil {
			var state units.Quantity
			if state, err = back.Held().At(voltage); err == nil {
				return state
			}
		}
		return in.Start
	}
	_, highest, err := in.OpenCircuit.Ends(in.OpenCircuit.Columns()[1])
	if err != nil {
		return ChargeResult{}, argument.First(function, err)
	}
	states, err := in.OpenCircuit.Column(in.OpenCircuit.Columns()[0])
	if err != nil {
		return ChargeResult{}, argument.First(function, err)
	}
	start, resistance, capacity := in.Start, in.Resistance, in.Capacity
	if !argument.Given(start) {
		start = states[0]
	}
	precharge, threshold := in.Precharge, argument.Voltage.OrZero(in.Threshold)
	if !argument.Given(precharge) {
		precharge = in.Current
	}
	fadesAt := in.FullVoltage.Sub(in.Current.Mul(resistance))
	endsAt := in.FullVoltage.Sub(in.Termination.Mul(resistance))
	if err := argument.First(function,
		argument.AtMost("FullVoltage less Termination · Resistance", endsAt, "the highest voltage of OpenCircuit", highest, "the current would not fall to Termination; add rows to the table, or lower FullVoltage"),
	); err != nil {
		return ChargeResult{}, err
	}
	slowUntil := units.Min(threshold.Sub(precharge.Mul(resistance)), fadesAt)
	slowEnd := units.Max(start, stateAt(slowUntil))
	fadeStart := units.Max(slowEnd, stateAt(fadesAt))
	end := units.Max(fadeStart, stateAt(endsAt))
	startVoltage, atErr := in.OpenCircuit.At(start)
	if err == nil {
		err = atErr
	}
	if err != nil {
		return ChargeResult{}, argument.First(function, err)
	}
	if err := argument.First(function,
		argument.Above("the state of charge at which the charge ends", end, "Start", start, "the battery is full already; raise FullVoltage, or lower Termination or Start"),
	); err != nil {
		return ChargeResult{}, err
	}
	prechargeTime := capacity.Mul(slowEnd.Sub(start)).Div(precharge)
	constantTime := capacity.Mul(fadeStart.Sub(slowEnd)).Div(in.Current)
	lost := precharge.Mul(precharge).Mul(resistance).Mul(prechargeTime)
	lost = lost.Add(in.Current.Mul(in.Current).Mul(resistance).Mul(constantTime))
	stored := capacity.Mul(startVoltage).Mul(units.Number(0))
	fadingTime := argument.Time.OrZero(none)
	two := units.Number(2)
	for i := 1; i < len(states); i++ {
		low, high := states[i-1], states[i]
		lowVoltage, errLow := in.OpenCircuit.At(low)
		highVoltage, errHigh := in.OpenCircuit.At(high)
		if err := argument.First(function, errLow, errHigh); err != nil {
			return ChargeResult{}, err
		}
		slope := highVoltage.Sub(lowVoltage).Div(high.Sub(low))
		// What of the charge lies on this piece, and of that what fades.
		from, to := units.Min(units.Max(start, low), high), units.Max(units.Min(end, high), low)
		fromVoltage := lowVoltage.Add(slope.Mul(from.Sub(low)))
		toVoltage := lowVoltage.Add(slope.Mul(to.Sub(low)))
		mean := fromVoltage.Add(toVoltage).Div(two)
		stored = stored.Add(capacity.Mul(units.Max(to.Sub(from), units.Number(0))).Mul(mean))
		fadeFrom := units.Min(units.Max(fadeStart, low), high)
		fadeTo := units.Max(units.Min(end, high), fadeFrom)
		// The end of the last piece is given by the termination, to the last digit.
		first := units.Max(in.FullVoltage.Sub(lowVoltage.Add(slope.Mul(fadeFrom.Sub(low)))), in.Termination.Mul(resistance))
		last := units.Max(in.FullVoltage.Sub(lowVoltage.Add(slope.Mul(fadeTo.Sub(low)))), in.Termination.Mul(resistance))
		constant := resistance.Mul(capacity).Div(slope)
		fadingTime = fadingTime.Add(constant.Mul(units.Ln(first.Div(last))))
		lost = lost.Add(capacity.Div(slope).Mul(first.Mul(first).Sub(last.Mul(last))).Div(two))
	}
	time := prechargeTime.Add(constantTime).Add(fadingTime)
	charge := capacity.Mul(end.Sub(start))
	energy := stored.Add(lost)
	one := units.Number(1)
	hour := func(t units.Quantity) units.Quantity { return units.In(t, "h") }
	return ChargeResult{
		PrechargeTime: hour(prechargeTime), ConstantTime: hour(constantTime), FadingTime: hour(fadingTime), Time: hour(time),
		Start: start.Mul(one), End: end.Mul(one), Charge: units.In(charge, "Ah"),
		Stored: units.In(stored, "Wh"), Lost: units.In(lost, "Wh"), Energy: units.In(energy, "Wh"),
	}, nil
}

func checkCharge(function string, in ChargeInputs) error {
	if err := argument.First(function,
		in.OpenCircuit.Expect("OpenCircuit", "%", "V"),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacity.Positive("Capacity", in.Capacity),
		argument.Share.NotNegative("Start", argument.Share.OrZero(in.Start)),
		argument.Voltage.Positive("FullVoltage", in.FullVoltage),
		argument.Current.Positive("Current", in.Current),
		argument.Current.Positive("Termination", in.Termination),
		argument.Current.Optional("Precharge", in.Precharge),
	); err != nil {
		return err
	}
	if argument.Given(in.Precharge) {
		if err := argument.First(function, argument.Voltage.Positive("Threshold", in.Threshold),
			argument.AtMost("Precharge", in.Precharge, "Current", in.Current, "an empty cell gets less, not more")); err != nil {
			return err
		}
	}
	states := in.OpenCircuit.Columns()[0]
	low, high, err := in.OpenCircuit.Ends(states)
	if err != nil {
		return argument.First(function, err)
	}
	lowVoltage, errLow := in.OpenCircuit.At(low)
	highVoltage, errHigh := in.OpenCircuit.At(high)
	return argument.First(function, errLow, errHigh,
		argument.Above("the voltage of OpenCircuit at the highest state of charge", highVoltage, "that at the lowest", lowVoltage, "write the state of charge, which is 100 % when full"),
		argument.Under("Termination", in.Termination, "Current", in.Current, "write a tenth of the charge current, or what the cell's data sheet has"))
}
