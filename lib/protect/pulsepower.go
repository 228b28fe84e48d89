package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// PulsePowerInputs are the arguments of PulsePower.
type PulsePowerInputs struct {
	Rated       units.Quantity // pulse power, W
	RatedTime   units.Quantity // length of the pulse for which Rated holds, to half of its peak, s
	Time        units.Quantity // length of the pulse, to half of its peak, s
	Curve       table.Table    // pulse power over its length, from s to W; left out: the law of the root
	Temperature units.Quantity // of the part before the pulse, °C; left out: 25 °C
	Full        units.Quantity // up to which Rated holds, °C; left out: 25 °C
	Zero        units.Quantity // at which nothing is left, °C; left out: 150 °C
}

// PulsePowerResult is what PulsePower finds.
type PulsePowerResult struct {
	TimeFactor       units.Quantity // more for a shorter pulse, no unit
	TemperatureShare units.Quantity // left at Temperature, no unit
	Allowed          units.Quantity // power of the pulse, W
}

// PulsePower scales the pulse power of a suppressor diode to another length
// of pulse, and to its temperature.
//
//	TimeFactor       = √(rated time/time), or curve at time over rated
//	TemperatureShare = (zero − temperature)/(zero − full), not above 1, not below 0
//	Allowed          = rated · TimeFactor · TemperatureShare
//
// Arguments: see PulsePowerInputs; Rated, W, above zero; Time, s, from a ten
// thousandth of RatedTime to ten times it, or in the range of Curve; Zero above
// Full. It is an error outside of that.
//
//	p, err := protect.PulsePower(protect.PulsePowerInputs{Rated: 600W, RatedTime: 1ms, Time: 20µs})
//	// p.Allowed: 4.243 kW
//
// Holds for pulses that are short beside the time in which heat leaves the
// die, some 10 ms, and of the same shape: an exponential for an exponential.
// Where the data sheet has a curve, give it: both axes are logarithmic, so write
// log into the headings.
//
// Source: heat that spreads into a half space rises with the root of time
// (H. S. Carslaw and J. C. Jaeger, Conduction of Heat in Solids, from memory),
// which the curves of suppressor diodes follow.
//
// Caution: a rectangular pulse of the same length heats more than an
// exponential; count it as longer, common practice doubles it.
func PulsePower(in PulsePowerInputs) (PulsePowerResult, error) {
	const function = "protect.PulsePower"
	temperature, full, zero := orElse(in.Temperature, units.MustParse("25 °C")), orElse(in.Full, units.MustParse("25 °C")), orElse(in.Zero, units.MustParse("150 °C"))
	if err := argument.First(function,
		argument.Power.Positive("Rated", in.Rated),
		argument.Time.Positive("RatedTime", in.RatedTime),
		argument.Time.Positive("Time", in.Time),
		argument.Temperature("Temperature", temperature),
		argument.Temperature("Full", full),
		argument.Temperature("Zero", zero),
	); err != nil {
		return PulsePowerResult{}, err
	}
	if err := argument.First(function,
		followsRoot(in.Curve, in.RatedTime, in.Time),
		argument.Above("Zero", zero, "Full", full, "take both corners from the derating curve"),
	); err != nil {
		return PulsePowerResult{}, err
	}
	timeFactor := units.Sqrt(in.RatedTime.Div(in.Time))
	if in.Curve.Given() {
		power, err := in.Curve.At(in.Time)
		if err := argument.First(function, err, argument.Power.Positive("the power that Curve gives", power)); err != nil {
			return PulsePowerResult{}, err
		}
		timeFactor = power.Div(in.Rated)
	}
	temperatureShare := shareLeft(temperature, full, zero)
	allowed := in.Rated.Mul(timeFactor).Mul(temperatureShare)
	return PulsePowerResult{TimeFactor: timeFactor, TemperatureShare: temperatureShare, Allowed: allowed}, nil
}

// followsRoot checks that there is a curve, or that the law of the root holds.
func followsRoot(curve table.Table, ratedTime, time units.Quantity) error {
	if curve.Given() {
		return curve.Expect("Curve", "s", "W")
	}
	if err := argument.AtLeast("Time", time, "a ten thousandth of RatedTime", ratedTime.Mul(units.Number(1e-4)), "so short a pulse leaves the law of the root; give the data sheet's Curve"); err != nil {
		return err
	}
	return argument.AtMost("Time", time, "ten times RatedTime", ratedTime.Mul(units.Number(10)), "so long a pulse leaves the law of the root; give the data sheet's Curve, or compute its heat with ClampHeat")
}

// shareLeft is what is left of a rating at a temperature.
func shareLeft(temperature, full, zero units.Quantity) units.Quantity {
	return units.Max(units.Min(zero.Sub(temperature).Div(zero.Sub(full)), units.Number(1)), units.Number(0))
}

// ClampHeatInputs are the arguments of ClampHeat.
type ClampHeatInputs struct {
	Energy            units.Quantity // of one pulse, J
	Interval          units.Quantity // from pulse to pulse, s
	Ambient           units.Quantity // °C
	ThermalResistance units.Quantity // junction to ambient, K/W
	Limit             units.Quantity // of the junction, °C
}

// ClampHeatResult is what ClampHeat finds.
type ClampHeatResult struct {
	Average          units.Quantity // power, W
	Junction         units.Quantity // °C
	Margin           units.Quantity // of Limit above Junction, K; below zero: too often
	ShortestInterval units.Quantity // with which Junction is Limit, s
}

// ClampHeat computes how warm a clamp becomes by pulses that come again and
// again.
//
//	Average          = energy/interval
//	Junction         = ambient + Average · thermal resistance
//	Margin           = limit − Junction
//	ShortestInterval = energy · thermal resistance/(limit − ambient)
//
// Arguments: see ClampHeatInputs; Energy, J, Interval, s, and
// ThermalResistance, K/W, above zero, Limit above Ambient. It is an error
// outside of that. A Junction above Limit is none: Margin is below zero.
//
//	h, err := protect.ClampHeat(protect.ClampHeatInputs{Energy: 15mJ, Interval: 50ms, Ambient: 60°C, ThermalResistance: 100K/W, Limit: 125°C})
//	// h.Junction: 90 °C
//
// Holds for the mean over many pulses; each adds its own peak on top, which
// PulsePower holds against the rating with Junction as its temperature.
//
// Source: definition of thermal resistance (JEDEC JESD51-1).
//
// Caution: a suppressor diode's steady power is that of its package, some
// watts and less on a board: a clamp for surges burns as a brake chopper.
func ClampHeat(in ClampHeatInputs) (ClampHeatResult, error) {
	const function = "protect.ClampHeat"
	if err := argument.First(function,
		argument.Energy.Positive("Energy", in.Energy),
		argument.Time.Positive("Interval", in.Interval),
		argument.Temperature("Ambient", in.Ambient),
		argument.ThermalResistance.Positive("ThermalResistance", in.ThermalResistance),
		argument.Temperature("Limit", in.Limit),
	); err != nil {
		return ClampHeatResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Limit", in.Limit, "Ambient", in.Ambient, "nothing is left for the clamp; lower Ambient"),
	); err != nil {
		return ClampHeatResult{}, err
	}
	average := in.Energy.Div(in.Interval)
	junction := in.Ambient.Add(average.Mul(in.ThermalResistance))
	margin := in.Limit.Sub(junction)
	shortestInterval := in.Energy.Mul(in.ThermalResistance).Div(in.Limit.Sub(in.Ambient))
	return ClampHeatResult{Average: average, Junction: junction, Margin: margin, ShortestInterval: shortestInterval}, nil
}
