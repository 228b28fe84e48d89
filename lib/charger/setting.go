package charger

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// SettingInputs are the arguments of Setting.
type SettingInputs struct {
	Constant    units.Quantity // of the part, V: current times resistor
	Resistor    units.Quantity // that sets the current, Ω
	Precharge   units.Quantity // share of the current for an empty cell, %; left out: none
	Termination units.Quantity // share of the current at which the charge ends, %; left out: none
	Most        units.Quantity // charge current that the cell allows, A; left out: no such limit
}

// SettingResult is what Setting finds.
type SettingResult struct {
	Current     units.Quantity // A
	Precharge   units.Quantity // A
	Termination units.Quantity // A
	Margin      units.Quantity // below Most, A; below zero: too much for the cell; 0 A without Most
}

// Setting computes the currents of a charger from its setting resistor.
//
//	Current     = constant/resistor
//	Precharge   = Current · precharge share
//	Termination = Current · termination share
//	Margin      = most − Current
//
// Arguments: see SettingInputs; Constant and Resistor above zero, the shares
// not below zero and not above 100 %. It is an error outside of that. Too much
// current is none: Margin is below zero then.
//
//	s, err := charger.Setting(charger.SettingInputs{Constant: 1000V, Resistor: 2kΩ, Termination: 10%})
//	// s.Current: 500 mA; s.Termination: 50 mA
//
// Source: data sheets of chargers with a setting resistor, Microchip DS22036B,
// equation 5-1, for one.
//
// Caution: Constant has a tolerance, often 10 %, and a larger one at small
// currents; the shares have their own.
func Setting(in SettingInputs) (SettingResult, error) {
	const function = "charger.Setting"
	one, zero := units.Number(1), units.Number(0)
	pre, end := argument.Share.OrZero(in.Precharge), argument.Share.OrZero(in.Termination)
	if err := argument.First(function,
		argument.Voltage.Positive("Constant", in.Constant),
		argument.Resistance.Positive("Resistor", in.Resistor),
		argument.Share.NotNegative("Precharge", pre),
		argument.AtMost("Precharge", pre, "all of the current", one, "write it as a share of the charge current"),
		argument.Share.NotNegative("Termination", end),
		argument.AtMost("Termination", end, "all of the current", one, "write it as a share of the charge current"),
		argument.Current.Optional("Most", in.Most),
	); err != nil {
		return SettingResult{}, err
	}
	current := in.Constant.Div(in.Resistor)
	precharge := current.Mul(pre)
	termination := current.Mul(end)
	margin := current.Mul(zero)
	if argument.Given(in.Most) {
		margin = in.Most.Sub(current)
	}
	return SettingResult{Current: current, Precharge: precharge, Termination: termination, Margin: margin}, nil
}

// Resistor finds the resistor that sets a charge current.
//
//	resistor = constant/current
//
// Arguments: constant of the part, V, and current, A, above zero. It is an
// error outside of that.
//
//	R, err := charger.Resistor(1000V, 100mA)
//	// 10 kΩ
//
// Source: as Setting. Take the next larger preferred value: less current is
// the safe side.
func Resistor(constant, current units.Quantity) (units.Quantity, error) {
	const function = "charger.Resistor"
	if err := argument.First(function,
		argument.Voltage.Positive("constant", constant),
		argument.Current.Positive("current", current),
	); err != nil {
		return none, err
	}
	return constant.Div(current), nil
}

// Timer holds a safety timer against the slowest charge.
//
//	margin = timer − charge
//
// Arguments: timer, s, with its tolerance, and charge, s, the longest time that
// a good battery takes, both above zero. It is an error outside of that. A
// timer that is too short is none: the margin is below zero by what is missing,
// and the charge ends early every time. Lengthen the timer, or charge with more
// current.
//
//	left, err := charger.Timer(5h ± 10%, t.Time)
//
// The slowest charge: least current of the setting, what thermal regulation and
// the input limit leave of it, largest capacity, from empty.
//
// Source: common practice of charger data sheets.
//
// Caution: the timer is what ends the charge of a broken cell. Do not make it
// much longer than needed, and never switch it off.
func Timer(timer, charge units.Quantity) (units.Quantity, error) {
	const function = "charger.Timer"
	if err := argument.First(function,
		argument.Time.Positive("timer", timer),
		argument.Time.Positive("charge", charge),
	); err != nil {
		return none, err
	}
	return timer.Sub(charge), nil
}
