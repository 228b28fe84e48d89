package stepup

import (
	"ohmwright/units"
)

// CurrentsResult is what Currents finds.
type CurrentsResult struct {
	OnSlope            units.Quantity // at which the inductor's current rises, A/s
	OffSlope           units.Quantity // at which it falls, A/s
	Duty               units.Quantity // of continuous conduction, no unit
	FullRipple         units.Quantity // peak to peak in continuous conduction, A
	Boundary           units.Quantity // load below which the current rests for a part of each period, A
	Conduction         units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	OnShare            units.Quantity // of a period with the switch on, no unit; the rest of Conduction the rectifier conducts
	OnTime             units.Quantity // of the switch in each period, s
	Ripple             units.Quantity // of the inductor's current, peak to peak, A
	Mean               units.Quantity // of the inductor's current over the period: the input's, A
	Flowing            units.Quantity // mean of the inductor's current while it flows, A
	Peak               units.Quantity // of the inductor's and the switch's current, A
	Valley             units.Quantity // A; 0 below the boundary, may be below zero if Forced
	InductorRMS        units.Quantity // A
	SwitchAverage      units.Quantity // A
	SwitchRMS          units.Quantity // A
	RectifierAverage   units.Quantity // through diode or synchronous rectifier: the load, A
	RectifierRMS       units.Quantity // A
	OutputCapacitorRMS units.Quantity // A
	InputCapacitorRMS  units.Quantity // if all that alternates comes from the capacitor, A
}

// Currents computes the currents of a step-up stage, in continuous conduction
// and below its boundary.
//
//	Boundary           = FullRipple/2 · (1 − Duty)
//	SwitchAverage      = OnShare · Flowing
//	SwitchRMS          = √(OnShare · (Flowing² + Ripple²/12))
//	RectifierAverage   = load, which is OffShare · Flowing
//	RectifierRMS       = √(OffShare · (Flowing² + Ripple²/12))
//	OutputCapacitorRMS = √(OffShare · (Flowing² · (1 − OffShare) + Ripple²/12))
//	InputCapacitorRMS  = that of the whole current without Mean
//
// with OnVoltage, OffVoltage and Mean as Duty finds them, and from these the
// triangle of the inductor's current, OnShare and OffShare, Flowing, Ripple,
// Peak and the rest, as switching.Cycle does.
//
// Arguments: a Stage: Input, Output, V, Frequency, Hz, and Inductance, H,
// above zero; Load, A, the resistances, Ω, and Diode, V, not below zero. It is
// an error outside of that, where the input is not below the output, and where
// the output lies above what the stage reaches.
//
//	i, err := stepup.Currents(stepup.Stage{Input: 3.3V, Output: 10V, Load: 300mA, Frequency: 1.6MHz, Inductance: 4.2µH, Diode: 0.8V})
//	// i.Peak: 1.152 A, i.Ripple: 341 mA
//
// Give Input as a range: Peak is largest at its low end, where the stage draws
// most. Below the boundary the share of the switch falls with √load, and a
// diode rests after the current has come to zero.
//
// Holds for straight ramps and a settled state at a fixed frequency. A
// regulator that skips pulses at light load makes fewer of them, and higher:
// its peak is then the least that its control allows. Below the boundary
// resistive drops are taken at the mean current, which leaves out a few of
// them.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 2 and 5, from memory.
//
// Caution: take the inductance at its least (tolerance, hot, at the peak
// current) for Peak. The output capacitor takes whole pulses of the rectifier
// here, where that of a step-down regulator takes a ripple only: its RMS
// current is larger than the load from a duty of a half on.
func Currents(stage Stage) (CurrentsResult, error) {
	d, c, err := stage.cycle("stepup.Currents")
	if err != nil {
		return CurrentsResult{}, err
	}
	share := d.OnVoltage.Div(d.OnVoltage.Add(d.OffVoltage))
	boundary := c.Boundary.Mul(share)
	return CurrentsResult{
		OnSlope:            c.OnSlope,
		OffSlope:           c.OffSlope,
		Duty:               c.Duty,
		FullRipple:         c.FullRipple,
		Boundary:           boundary,
		Conduction:         c.Conduction,
		OnShare:            c.OnShare,
		OnTime:             c.OnTime,
		Ripple:             c.Ripple,
		Mean:               d.Mean,
		Flowing:            c.Flowing,
		Peak:               c.Peak,
		Valley:             c.Valley,
		InductorRMS:        c.RMS,
		SwitchAverage:      c.OnAverage,
		SwitchRMS:          c.OnRMS,
		RectifierAverage:   stage.Load,
		RectifierRMS:       c.OffRMS,
		OutputCapacitorRMS: c.OffPulseRMS,
		InputCapacitorRMS:  c.AlternatingRMS,
	}, nil
}
