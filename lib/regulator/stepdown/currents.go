package stepdown

import (
	"ohmwright/lib/argument"
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
	OnShare            units.Quantity // of a period with the high switch on, no unit; the rest of Conduction the low side conducts
	OnTime             units.Quantity // of the high switch in each period, s
	Ripple             units.Quantity // of the inductor's current, peak to peak, A
	Mean               units.Quantity // of the inductor's current while it flows, A
	Peak               units.Quantity // of the inductor's current, A: what must not saturate it
	Valley             units.Quantity // A; 0 below the boundary, below zero if Forced
	InductorRMS        units.Quantity // A
	HighAverage        units.Quantity // through the high switch: the input current of an ideal regulator, A
	HighRMS            units.Quantity // through the high switch, A
	LowAverage         units.Quantity // through diode or low switch, A
	LowRMS             units.Quantity // through diode or low switch, A
	OutputCapacitorRMS units.Quantity // A
	InputCapacitorRMS  units.Quantity // if all that alternates comes from the capacitor, A
}

// Currents computes the currents of a step-down stage, in continuous
// conduction and below its boundary.
//
//	OnSlope     = OnVoltage/inductance
//	OffSlope    = OffVoltage/inductance
//	FullRipple  = OnSlope · Duty/frequency
//	Boundary    = FullRipple/2
//	Conduction  = least of 1 and √(load/Boundary); 1 if forced
//	OnShare     = Duty · Conduction
//	OnTime      = OnShare/frequency
//	Ripple      = FullRipple · Conduction
//	Mean        = largest of load and Ripple/2; load if forced
//	Peak        = Mean + Ripple/2
//	Valley      = Mean − Ripple/2
//	Square      = Mean² + Ripple²/12
//	InductorRMS = √(Conduction · Square)
//	HighAverage = OnShare · Mean
//	HighRMS     = √(OnShare · Square)
//	LowAverage  = (Conduction − OnShare) · Mean
//	LowRMS      = √((Conduction − OnShare) · Square)
//	OutputCapacitorRMS = √(Conduction · (Mean² · (1 − Conduction) + Ripple²/12))
//	InputCapacitorRMS  = √(OnShare · (Mean² · (1 − OnShare) + Ripple²/12))
//
// with OnVoltage, OffVoltage and Duty as Duty finds them.
//
// Arguments: a Stage: Input, Output, V, Frequency, Hz, and Inductance, H,
// above zero; Load, A, HighSwitch, LowSwitch and Winding, Ω, and Diode, V,
// not below zero. It is an error outside of that, and where the input is not
// above the output and the drops.
//
//	i, err := stepdown.Currents(stepdown.Stage{Input: 42V, Output: 3.3V, Load: 5A, Frequency: 400kHz, Inductance: 4.8µH})
//	// i.Ripple: 1.584 A, i.Peak: 5.792 A
//
// Holds for straight ramps and a settled state at a fixed frequency. A
// regulator that skips pulses at light load makes fewer of them, and higher:
// its peak is then the least that its control allows.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 2 and 5, from memory; RMS value of a trapezoid from any textbook.
//
// Caution: take the inductance at its least (tolerance, hot, at the peak
// current) for Peak and ripple. The usual load · √(Duty · (1 − Duty)) for the
// input capacitor leaves out the ripple and does not hold below the boundary.
func Currents(stage Stage) (CurrentsResult, error) {
	if err := argument.First("stepdown.Currents", stage.withInductor()); err != nil {
		return CurrentsResult{}, err
	}
	return stage.currents(), nil
}

func (s Stage) currents() CurrentsResult {
	load, frequency, inductance := s.Load, s.Frequency, s.Inductance
	one, half := units.Number(1), units.Number(0.5)
	d := s.duty()
	onSlope := d.OnVoltage.Div(inductance)
	offSlope := d.OffVoltage.Div(inductance)
	fullRipple := onSlope.Mul(d.Duty).Div(frequency)
	boundary := fullRipple.Mul(half)
	conduction, mean := one, load
	if !s.Forced {
		conduction = units.Min(one, units.Sqrt(load.Div(boundary)))
	}
	onShare := d.Duty.Mul(conduction)
	offShare := one.Sub(d.Duty).Mul(conduction)
	onTime := onShare.Div(frequency)
	ripple := fullRipple.Mul(conduction)
	halfRipple := ripple.Mul(half)
	if !s.Forced {
		mean = units.Max(load, halfRipple)
	}
	peak := mean.Add(halfRipple)
	valley := mean.Sub(halfRipple)
	meanSquare := mean.Mul(mean)
	rippleSquare := ripple.Mul(ripple).Div(units.Number(12))
	square := meanSquare.Add(rippleSquare)
	outputSquare := meanSquare.Mul(one.Sub(conduction)).Add(rippleSquare)
	inputSquare := meanSquare.Mul(one.Sub(onShare)).Add(rippleSquare)
	return CurrentsResult{
		OnSlope:            onSlope,
		OffSlope:           offSlope,
		Duty:               d.Duty,
		FullRipple:         fullRipple,
		Boundary:           boundary,
		Conduction:         conduction,
		OnShare:            onShare,
		OnTime:             onTime,
		Ripple:             ripple,
		Mean:               mean,
		Peak:               peak,
		Valley:             valley,
		InductorRMS:        units.Sqrt(conduction.Mul(square)),
		HighAverage:        onShare.Mul(mean),
		HighRMS:            units.Sqrt(onShare.Mul(square)),
		LowAverage:         offShare.Mul(mean),
		LowRMS:             units.Sqrt(offShare.Mul(square)),
		OutputCapacitorRMS: units.Sqrt(conduction.Mul(outputSquare)),
		InputCapacitorRMS:  units.Sqrt(onShare.Mul(inputSquare)),
	}
}
