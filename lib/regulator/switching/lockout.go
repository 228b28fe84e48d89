package switching

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LockoutInputs are the arguments of Lockout.
type LockoutInputs struct {
	Upper   units.Quantity // resistor from the input to the enable pin, Ω
	Lower   units.Quantity // resistor from the enable pin to ground, Ω
	Rising  units.Quantity // threshold of the pin at which the regulator starts, V
	Falling units.Quantity // threshold at which it stops, V; left out: Rising
	Pull    units.Quantity // current out of the pin at all times, A; left out: none
	Extra   units.Quantity // further current out of the pin while the regulator runs, A; left out: none
}

// LockoutResult is what Lockout finds.
type LockoutResult struct {
	Start      units.Quantity // input at which the regulator starts, V
	Stop       units.Quantity // input at which it stops, V
	Hysteresis units.Quantity // between the two, V
}

// Lockout computes at which input a regulator starts and stops, whose enable
// pin has a divider from the input.
//
//	Start      = rising + upper · (rising/lower − pull)
//	Stop       = falling + upper · (falling/lower − pull − extra)
//	Hysteresis = Start − Stop
//
// Arguments: Upper and Lower, Ω, and Rising, V, above zero; Falling, V, above
// zero and at most Rising; Pull and Extra, A, not below zero. It is an error
// outside of that, and where the currents hold the pin above its falling
// threshold without any input, so that the regulator never stops.
//
//	u, err := switching.Lockout(switching.LockoutInputs{
//		Upper: 365kΩ, Lower: 88.7kΩ, Rising: 1.2V, Pull: 1.2µA, Extra: 3.4µA,
//	})
//	// u.Start: 5.7 V, u.Stop: 4.459 V
//
// Holds for regulators whose pin sources current, and for those that only
// have two thresholds. Give the thresholds as Band and the resistors their
// tolerance: Start and Stop then have theirs.
//
// Source: Kirchhoff's current law at the pin (TPS54540B SLVSEZ9 has the form
// with two currents).
//
// Caution: the pin has a rating of its own; at the highest input the divider
// must not lift it above. Stop below the input at which the output drops out
// gives the load an output that sags.
func Lockout(in LockoutInputs) (LockoutResult, error) {
	const function = "switching.Lockout"
	if err := argument.First(function,
		argument.Resistance.Positive("Upper", in.Upper),
		argument.Resistance.Positive("Lower", in.Lower),
		in.thresholds(),
	); err != nil {
		return LockoutResult{}, err
	}
	r := in.lockout()
	zero := r.Stop.Sub(r.Stop)
	if err := argument.First(function,
		argument.Above("Stop", r.Stop, "no input at all", zero, "the pin's currents hold it up without an input; lower both resistors"),
	); err != nil {
		return LockoutResult{}, err
	}
	return r, nil
}

func (in LockoutInputs) thresholds() error {
	for _, err := range []error{
		argument.Voltage.Positive("Rising", in.Rising),
		argument.Voltage.Positive("Falling", in.falling()),
		argument.Current.NotNegative("Pull", argument.Current.OrZero(in.Pull)),
		argument.Current.NotNegative("Extra", argument.Current.OrZero(in.Extra)),
	} {
		if err != nil {
			return err
		}
	}
	return argument.AtMost("Falling", in.falling(), "Rising", in.Rising, "the pin starts at the higher threshold; exchange them")
}

func (in LockoutInputs) falling() units.Quantity {
	if argument.Given(in.Falling) {
		return in.Falling
	}
	return in.Rising
}

// lockout computes both thresholds of the input from the resistors.
func (in LockoutInputs) lockout() LockoutResult {
	rising, falling := in.Rising, in.falling()
	pull := argument.Current.OrZero(in.Pull)
	running := pull.Add(argument.Current.OrZero(in.Extra))
	start := rising.Add(in.Upper.Mul(rising.Div(in.Lower).Sub(pull)))
	stop := falling.Add(in.Upper.Mul(falling.Div(in.Lower).Sub(running)))
	return LockoutResult{Start: start, Stop: stop, Hysteresis: start.Sub(stop)}
}

// LockoutDividerInputs are the arguments of LockoutDivider.
type LockoutDividerInputs struct {
	Start   units.Quantity // input at which the regulator shall start, V
	Stop    units.Quantity // input at which it shall stop, V
	Rising  units.Quantity // threshold of the pin at which the regulator starts, V
	Falling units.Quantity // threshold at which it stops, V; left out: Rising
	Pull    units.Quantity // current out of the pin at all times, A; left out: none
	Extra   units.Quantity // further current out of the pin while the regulator runs, A
}

// LockoutDividerResult is what LockoutDivider finds.
type LockoutDividerResult struct {
	Ratio units.Quantity // of the thresholds, no unit
	Upper units.Quantity // resistor from the input to the enable pin, Ω
	Lower units.Quantity // resistor from the enable pin to ground, Ω
}

// LockoutDivider finds the ideal resistors that make a regulator start and
// stop at wanted inputs.
//
//	Ratio = falling/rising
//	Upper = (start · Ratio − stop)/(pull · (1 − Ratio) + extra)
//	Lower = rising/((start − rising)/Upper + pull)
//
// Arguments: Start, V, above Rising; Stop, V, above zero and below
// Start · Ratio; Rising, V, above zero; Falling, V, above zero and at most
// Rising; Pull, A, not below zero; Extra, A, above zero. It is an error
// outside of that. A pin without Extra has no hysteresis to choose: its
// divider is a plain one, from Start.
//
//	u, err := switching.LockoutDivider(switching.LockoutDividerInputs{
//		Start: 5.75V, Stop: 4.5V, Rising: 1.2V, Pull: 1.2µA, Extra: 3.4µA,
//	})
//	// u.Upper: 367.6 kΩ, u.Lower: 88.39 kΩ
//
// Feed the chosen values back through Lockout.
//
// Where it holds, source and cautions: as Lockout.
func LockoutDivider(in LockoutDividerInputs) (LockoutDividerResult, error) {
	const function = "switching.LockoutDivider"
	pin := LockoutInputs{Rising: in.Rising, Falling: in.Falling, Pull: in.Pull, Extra: in.Extra}
	if err := argument.First(function,
		argument.Voltage.Positive("Start", in.Start),
		argument.Voltage.Positive("Stop", in.Stop),
		pin.thresholds(),
		argument.Current.Positive("Extra", in.Extra),
	); err != nil {
		return LockoutDividerResult{}, err
	}
	one, pull := units.Number(1), argument.Current.OrZero(in.Pull)
	ratio := pin.falling().Div(in.Rising)
	scaled := in.Start.Mul(ratio)
	if err := argument.First(function,
		argument.Above("Start", in.Start, "Rising", in.Rising, "a divider only sets inputs above the pin's threshold; raise Start"),
		argument.Under("Stop", in.Stop, "Start · Falling/Rising", scaled, "the thresholds alone make more hysteresis than wanted; lower Stop"),
	); err != nil {
		return LockoutDividerResult{}, err
	}
	upper := scaled.Sub(in.Stop).Div(pull.Mul(one.Sub(ratio)).Add(in.Extra))
	lower := in.Rising.Div(in.Start.Sub(in.Rising).Div(upper).Add(pull))
	return LockoutDividerResult{Ratio: ratio, Upper: upper, Lower: lower}, nil
}
