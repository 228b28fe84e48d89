package battery

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Mode is something that the load does: sleep, measure, send.
type Mode struct {
	Name    string
	Current units.Quantity // from the battery, A; or Power
	Power   units.Quantity // from the battery, W; or Current
	Time    units.Quantity // in one period, s; or Share
	Share   units.Quantity // of the time, %; or Time; one mode may leave out both: it has the rest
}

// ModesInputs are the arguments of Modes.
type ModesInputs struct {
	Modes   []Mode
	Period  units.Quantity // in which everything happens once, s; left out: all Times together
	Voltage units.Quantity // of the battery, V; needed for a mode with a Power
}

// ModePart is what one mode takes.
type ModePart struct {
	Name    string
	Current units.Quantity // A
	Share   units.Quantity // of the time, no unit
	Average units.Quantity // of its current over all time, A
	Taken   units.Quantity // its part of the average of all, no unit
}

// ModesResult is what Modes finds.
type ModesResult struct {
	Average units.Quantity // current, A
	Peak    units.Quantity // largest current of a mode, A
	Daily   units.Quantity // charge in 24 hours, Ah
	Parts   []ModePart     // in the order of the modes
}

// Modes computes the average current of a load that goes through operating
// modes.
//
//	Current = power/voltage, where a power is given
//	Share   = time/period
//	Average = Current₁ · Share₁ + Current₂ · Share₂ + …
//	Daily   = Average · 24 h
//
// Arguments: Modes, at least one, each with a Current, A, or a Power, W, not
// below zero, and with a Time, s, or a Share of the time; one of them may leave
// out both, and has the rest. Period, s, may be left out where every mode has a
// Time. Voltage, V, is needed where a mode has a Power. It is an error where
// the modes leave time over, or take more than there is.
//
//	m, err := battery.Modes(battery.ModesInputs{Period: 10min, Modes: []battery.Mode{
//		{Name: "send", Current: 40mA, Time: 80ms},
//		{Name: "sleep", Current: 6µA},
//	}})
//	// m.Average: 11.33 µA
//
// Holds for a battery that takes the average of short modes; see Pulse for the
// voltage in the largest of them. A load behind a step-down or step-up
// regulator is a Power: at a lower voltage it takes more current.
//
// Source: mean value of a current that is constant by pieces (any textbook).
//
// Caution: what is measured on a bench in sleep leaves out leakage at high
// temperature, which doubles about every 10 K (common practice).
func Modes(in ModesInputs) (ModesResult, error) {
	const function = "battery.Modes"
	if err := checkModes(function, in); err != nil {
		return ModesResult{}, err
	}
	zero, one := units.Number(0), units.Number(1)
	period := in.Period
	for i, mode := range in.Modes {
		if !argument.Given(in.Period) && argument.Given(mode.Time) {
			if i == 0 || !argument.Given(period) {
				period = mode.Time
			} else {
				period = period.Add(mode.Time)
			}
		}
	}
	parts := make([]ModePart, len(in.Modes))
	used, rest := zero, -1
	for i, mode := range in.Modes {
		switch {
		case argument.Given(mode.Share):
			parts[i].Share = mode.Share.Div(one)
		case argument.Given(mode.Time):
			parts[i].Share = mode.Time.Div(period)
		default:
			rest = i
			continue
		}
		used = used.Add(parts[i].Share)
	}
	// Sums of decimal shares miss 100 % by roundings.
	const rounding = 1e-9
	if err := argument.First(function,
		argument.AtMost("the share of all modes together", used, "the whole time", units.Number(1+rounding), "shorten a mode, or lengthen the period"),
	); err != nil {
		return ModesResult{}, err
	}
	if rest >= 0 {
		parts[rest].Share = units.Max(one.Sub(used), zero)
	} else if err := argument.First(function,
		argument.AtLeast("the share of all modes together", used, "the whole time", units.Number(1-rounding), "add a mode for the rest of it, with neither Time nor Share"),
	); err != nil {
		return ModesResult{}, err
	}
	average, peak := argument.Current.OrZero(none), argument.Current.OrZero(none)
	for i, mode := range in.Modes {
		current := mode.Current
		if argument.Given(mode.Power) {
			current = mode.Power.Div(in.Voltage)
		}
		parts[i].Name, parts[i].Current = mode.Name, current
		parts[i].Average = current.Mul(parts[i].Share)
		average = average.Add(parts[i].Average)
		peak = units.Max(peak, current)
	}
	for i := range parts {
		// Where nothing at all is taken, nobody takes a part of it.
		parts[i].Taken = shareOf(parts[i].Average, average)
	}
	day := units.MustParse("24 h")
	daily := units.In(average.Mul(day), "mAh")
	return ModesResult{Average: average, Peak: peak, Daily: daily, Parts: parts}, nil
}

// shareOf is x/whole, and zero where the whole is zero.
func shareOf(x, whole units.Quantity) units.Quantity {
	nothing := whole.Sub(whole)
	least := units.Where(nothing, whole, whole, unit(whole))
	return x.Div(least)
}

// unit is one coherent unit of the kind of x.
func unit(x units.Quantity) units.Quantity { return units.MustParse("1 " + x.SIUnit()) }

func checkModes(function string, in ModesInputs) error {
	if len(in.Modes) == 0 {
		return fmt.Errorf("%s: Modes is empty: write at least one mode, such as sleep", function)
	}
	if err := argument.First(function, argument.Time.Optional("Period", in.Period)); err != nil {
		return err
	}
	rest, shares, times := "", false, false
	for i, mode := range in.Modes {
		name := mode.Name
		if name == "" {
			name = fmt.Sprintf("mode %d", i+1)
		}
		switch {
		case argument.Given(mode.Current) && argument.Given(mode.Power):
			return fmt.Errorf("%s: %s has a Current, %v, and a Power, %v: write one of them", function, name, mode.Current, mode.Power)
		case argument.Given(mode.Time) && argument.Given(mode.Share):
			return fmt.Errorf("%s: %s has a Time, %v, and a Share, %v: write one of them", function, name, mode.Time, mode.Share)
		case argument.Given(mode.Power):
			if err := argument.First(function, argument.Power.NotNegative("Power of "+name, mode.Power), argument.Voltage.Positive("Voltage", in.Voltage)); err != nil {
				return err
			}
		default:
			if err := argument.First(function, argument.Current.NotNegative("Current of "+name, mode.Current)); err != nil {
				return err
			}
		}
		switch {
		case argument.Given(mode.Share):
			shares = true
			if err := argument.First(function, argument.Share.NotNegative("Share of "+name, mode.Share)); err != nil {
				return err
			}
		case argument.Given(mode.Time):
			times = true
			if err := argument.First(function, argument.Time.Positive("Time of "+name, mode.Time)); err != nil {
				return err
			}
		case rest != "":
			return fmt.Errorf("%s: %s and %s have neither Time nor Share: only one can have the rest of the time", function, rest, name)
		default:
			rest = name
		}
	}
	if times && (shares || rest != "") && !argument.Given(in.Period) {
		return fmt.Errorf("%s: Period is not given, and not every mode has a Time: write the period in which everything happens once, such as 10 min", function)
	}
	return nil
}
