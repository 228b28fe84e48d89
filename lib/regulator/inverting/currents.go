package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/units"
)

// CurrentsResult is what Currents finds.
type CurrentsResult struct {
	OnSlope            units.Quantity // at which the current rises, A/s
	OffSlope           units.Quantity // at which it falls, A/s
	Duty               units.Quantity // of continuous conduction, no unit
	FullRipple         units.Quantity // peak to peak in continuous conduction, A
	Boundary           units.Quantity // load below which the current rests for a part of each period, A
	Conduction         units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	OnShare            units.Quantity // of a period with the switch on, no unit
	OffShare           units.Quantity // of a period with the rectifier conducting, no unit
	OnTime             units.Quantity // of the switch in each period, s
	Ripple             units.Quantity // of the current, peak to peak, A
	Mean               units.Quantity // of the current while it flows, A
	Peak               units.Quantity // of the current, in switch and rectifier alike, A
	Valley             units.Quantity // A; 0 below the boundary, may be below zero if Forced
	RMS                units.Quantity // of the current, A: that of an inverting stage's inductor
	SwitchAverage      units.Quantity // A: the input current without what the losses add
	SwitchRMS          units.Quantity // A
	RectifierAverage   units.Quantity // A: the load
	RectifierRMS       units.Quantity // A
	OutputCapacitorRMS units.Quantity // A
	InputCapacitorRMS  units.Quantity // if all that alternates comes from the capacitor, A
}

// Currents computes the current that switch and rectifier pass to each other,
// in continuous conduction and below its boundary: that of the inductor, in
// a SEPIC that of both inductors together.
//
//	together    = inductance; of a SEPIC that is not Coupled, first · second/(first + second)
//	OnSlope     = OnVoltage/together
//	OffSlope    = OffVoltage/together
//	FullRipple  = OnSlope · Duty/frequency
//	Boundary    = (1 − Duty) · FullRipple/2
//	Conduction  = least of 1 and √(load/Boundary); 1 if forced
//	OnShare     = Duty · Conduction
//	OffShare    = (1 − Duty) · Conduction
//	OnTime      = OnShare/frequency
//	Ripple      = FullRipple · Conduction
//	Mean        = largest of Current and Ripple/2; Current if forced
//	Peak        = Mean + Ripple/2
//	Valley      = Mean − Ripple/2
//	Square      = Mean² + Ripple²/12
//	RMS         = √(Conduction · Square)
//	SwitchAverage      = OnShare · Mean
//	SwitchRMS          = √(OnShare · Square)
//	RectifierAverage   = OffShare · Mean
//	RectifierRMS       = √(OffShare · Square)
//	OutputCapacitorRMS = √(OffShare · (Mean² · (1 − OffShare) + Ripple²/12))
//	InputCapacitorRMS  = √(OnShare · (Mean² · (1 − OnShare) + Ripple²/12))
//
// with OnVoltage, OffVoltage, Duty and Current as Duty finds them. A SEPIC's
// input current is that of its first inductor, and the capacitor takes what
// alternates of it:
//
//	InputCapacitorRMS  = ripple of the first inductor · √(Conduction/3 − Conduction²/4)
//
// Arguments: a Stage: Input, V, Frequency, Hz, and Inductance, H, above zero;
// Output, V, below zero, of a SEPIC above; Second, H, above zero if given;
// Load, A, resistances, Ω, and Diode, V, not below zero. It is an error
// outside of that, and where Duty says so.
//
//	i, err := inverting.Currents(inverting.Stage{Input: 12V, Output: -5V, Load: 1A, Frequency: 500kHz, Inductance: 15µH, Diode: 0.5V})
//	// i.Ripple: 502.9 mA, i.Peak: 1.71 A
//
// Give Input and Load as ranges: Peak is largest at the lowest input with the
// full load, unless the ripple, largest at the highest input, outweighs that.
//
// Holds for straight ramps and a settled state at a fixed frequency. A
// regulator that skips pulses at light load makes fewer of them, and higher:
// its peak is then the least that its control allows.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 2 and 5, from memory; SLVA059 (Texas Instruments, Understanding
// inverting buck-boost power stages), from memory.
//
// Caution: take the inductance at its least (tolerance, hot, at the peak
// current) for Peak and ripple. The output capacitor alone carries the load in
// the on-time: its current is about load · √(Duty/(1 − Duty)), many times that
// of a step-down regulator.
func Currents(stage Stage) (CurrentsResult, error) {
	const function = "inverting.Currents"
	if err := argument.First(function, stage.withInductor()); err != nil {
		return CurrentsResult{}, err
	}
	c, err := stage.cycle()
	if err != nil {
		return CurrentsResult{}, argument.Within(function, err)
	}
	inputRMS := c.OnPulseRMS
	if stage.SEPIC {
		inputRMS = stage.inductors(c).AlternatingRMS
	}
	return CurrentsResult{
		OnSlope:            c.OnSlope,
		OffSlope:           c.OffSlope,
		Duty:               c.Duty,
		FullRipple:         c.FullRipple,
		Boundary:           c.Boundary.Mul(units.Number(1).Sub(c.Duty)),
		Conduction:         c.Conduction,
		OnShare:            c.OnShare,
		OffShare:           c.OffShare,
		OnTime:             c.OnTime,
		Ripple:             c.Ripple,
		Mean:               c.Flowing,
		Peak:               c.Peak,
		Valley:             c.Valley,
		RMS:                c.RMS,
		SwitchAverage:      c.OnAverage,
		SwitchRMS:          c.OnRMS,
		RectifierAverage:   c.OffAverage,
		RectifierRMS:       c.OffRMS,
		OutputCapacitorRMS: c.OffPulseRMS,
		InputCapacitorRMS:  inputRMS,
	}, nil
}

// cycle is one period of the current that switch and rectifier pass to each
// other.
func (s Stage) cycle() (switching.CycleResult, error) {
	d := s.duty()
	return switching.Cycle(switching.CycleInputs{
		OnVoltage: d.OnVoltage, OffVoltage: d.OffVoltage, Inductance: s.together(), Frequency: s.Frequency,
		Mean: d.Current, Forced: s.Forced,
	})
}
