package switching

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CycleInputs are the arguments of Cycle.
type CycleInputs struct {
	OnVoltage  units.Quantity // across the inductance while the switch is on, V
	OffVoltage units.Quantity // across it, the other way, while the rectifier conducts, V
	Inductance units.Quantity // H
	Frequency  units.Quantity // of switching, Hz
	Mean       units.Quantity // of the inductor's current over the whole period, A
	Forced     bool           // the rectifier lets the current reverse
}

// CycleResult is what Cycle finds. The on-part is that of the switch, the
// off-part that of the rectifier.
type CycleResult struct {
	OnSlope        units.Quantity // at which the current rises, A/s
	OffSlope       units.Quantity // at which it falls, A/s
	Duty           units.Quantity // of continuous conduction, no unit
	FullRipple     units.Quantity // peak to peak in continuous conduction, A
	Boundary       units.Quantity // Mean below which the current rests for a part of each period, A
	Conduction     units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	OnShare        units.Quantity // of a period, no unit
	OffShare       units.Quantity // of a period, no unit
	OnTime         units.Quantity // s
	OffTime        units.Quantity // s
	Ripple         units.Quantity // of the current, peak to peak, A
	Flowing        units.Quantity // mean of the current while it flows, A
	Peak           units.Quantity // A: what must not saturate the inductor
	Valley         units.Quantity // A; 0 below the boundary, may be below zero if Forced
	RMS            units.Quantity // of the whole current, A
	AlternatingRMS units.Quantity // of the whole current without its mean, A
	Charge         units.Quantity // by which the whole current runs over its mean, C
	OnAverage      units.Quantity // of the on-part over a period, A
	OnRMS          units.Quantity // of the on-part, A
	OnPulseRMS     units.Quantity // of the on-part without its average, A: that of a capacitor which gives it
	OnCharge       units.Quantity // that such a capacitor takes and gives in each period, C
	OffAverage     units.Quantity // of the off-part over a period, A
	OffRMS         units.Quantity // of the off-part, A
	OffPulseRMS    units.Quantity // of the off-part without its average, A: that of a capacitor which takes it
	OffCharge      units.Quantity // that such a capacitor takes and gives in each period, C
	Swing          units.Quantity // of either part, from nothing or below zero to the peak, A
}

// Cycle computes the triangular current of an inductor in one period, in
// continuous conduction and below its boundary, and its two parts.
//
//	OnSlope        = on-voltage/inductance
//	OffSlope       = off-voltage/inductance
//	Duty           = off-voltage/(on-voltage + off-voltage)
//	FullRipple     = OnSlope · Duty/frequency
//	Boundary       = FullRipple/2
//	Conduction     = least of 1 and √(mean/Boundary); 1 if forced
//	OnShare        = Duty · Conduction
//	OffShare       = (1 − Duty) · Conduction
//	Ripple         = FullRipple · Conduction
//	Flowing        = largest of mean and Ripple/2; mean if forced
//	Peak           = Flowing + Ripple/2
//	Valley         = Flowing − Ripple/2
//	Square         = Flowing² + Ripple²/12
//	RMS            = √(Conduction · Square)
//	AlternatingRMS = √(Conduction · (Flowing² · (1 − Conduction) + Ripple²/12))
//	Charge         = (Peak − mean)²/2 · (1/OnSlope + 1/OffSlope)
//	OnAverage      = OnShare · Flowing
//	OnRMS          = √(OnShare · Square)
//	OnPulseRMS     = √(OnShare · (Flowing² · (1 − OnShare) + Ripple²/12))
//	OnCharge       = OnAverage · (1 − OnShare)/frequency + (OnAverage − Valley)²/(2 · OnSlope)
//	Swing          = Peak − Valley below zero
//
// OffAverage to OffCharge likewise, with OffShare and OffSlope. The last part
// of a charge counts where Valley is below the average: while the pulse is
// still, or again, below what is drawn steadily.
//
// Arguments: OnVoltage and OffVoltage, V, Inductance, H, and Frequency, Hz,
// above zero; Mean, A, not below zero. It is an error outside of that.
//
//	c, err := switching.Cycle(switching.CycleInputs{
//		OnVoltage: 38.7V, OffVoltage: 3.3V, Inductance: 4.8µH, Frequency: 400kHz, Mean: 5A,
//	})
//	// c.Ripple: 1.584 A, c.Peak: 5.792 A
//
// Holds for straight ramps and a settled state at a fixed frequency. A
// regulator that skips pulses at light load makes fewer of them, and higher:
// its peak is then the least that its control allows.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics,
// chapters 2 and 5, from memory; RMS value and charge of a trapezoid from any
// textbook.
//
// Caution: take the inductance at its least (tolerance, hot, at the peak
// current) for Peak and ripple.
func Cycle(in CycleInputs) (CycleResult, error) {
	if err := argument.First("switching.Cycle",
		argument.Voltage.Positive("OnVoltage", in.OnVoltage),
		argument.Voltage.Positive("OffVoltage", in.OffVoltage),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Frequency.Positive("Frequency", in.Frequency),
		argument.Current.NotNegative("Mean", in.Mean),
	); err != nil {
		return CycleResult{}, err
	}
	one, half := units.Number(1), units.Number(0.5)
	onSlope := in.OnVoltage.Div(in.Inductance)
	offSlope := in.OffVoltage.Div(in.Inductance)
	both := in.OnVoltage.Add(in.OffVoltage)
	duty := in.OffVoltage.Div(both)
	remainder := in.OnVoltage.Div(both) // 1 − duty, without loss of digits
	fullRipple := onSlope.Mul(duty).Div(in.Frequency)
	boundary := fullRipple.Mul(half)
	conduction, flowing := one, in.Mean
	if !in.Forced {
		conduction = units.Min(one, units.Sqrt(in.Mean.Div(boundary)))
	}
	onShare := duty.Mul(conduction)
	offShare := remainder.Mul(conduction)
	ripple := fullRipple.Mul(conduction)
	halfRipple := ripple.Mul(half)
	if !in.Forced {
		flowing = units.Max(in.Mean, halfRipple)
	}
	peak := flowing.Add(halfRipple)
	valley := flowing.Sub(halfRipple)
	over := peak.Sub(in.Mean)
	meanSquare := flowing.Mul(flowing)
	rippleSquare := ripple.Mul(ripple).Div(units.Number(12))
	square := meanSquare.Add(rippleSquare)
	alternating := meanSquare.Mul(one.Sub(conduction)).Add(rippleSquare)
	onPulse := meanSquare.Mul(one.Sub(onShare)).Add(rippleSquare)
	offPulse := meanSquare.Mul(one.Sub(offShare)).Add(rippleSquare)
	onAverage := onShare.Mul(flowing)
	offAverage := offShare.Mul(flowing)
	zero := ripple.Sub(ripple)
	onLack := units.Max(onAverage.Sub(valley), zero)
	offLack := units.Max(offAverage.Sub(valley), zero)
	onGap := onAverage.Mul(one.Sub(onShare)).Div(in.Frequency)
	offGap := offAverage.Mul(one.Sub(offShare)).Div(in.Frequency)
	return CycleResult{
		OnSlope:        onSlope,
		OffSlope:       offSlope,
		Duty:           duty,
		FullRipple:     fullRipple,
		Boundary:       boundary,
		Conduction:     conduction,
		OnShare:        onShare,
		OffShare:       offShare,
		OnTime:         onShare.Div(in.Frequency),
		OffTime:        offShare.Div(in.Frequency),
		Ripple:         ripple,
		Flowing:        flowing,
		Peak:           peak,
		Valley:         valley,
		RMS:            units.Sqrt(conduction.Mul(square)),
		AlternatingRMS: units.Sqrt(conduction.Mul(alternating)),
		Charge:         over.Mul(over).Mul(half).Mul(one.Div(onSlope).Add(one.Div(offSlope))),
		OnAverage:      onAverage,
		OnRMS:          units.Sqrt(onShare.Mul(square)),
		OnPulseRMS:     units.Sqrt(onShare.Mul(onPulse)),
		OnCharge:       onGap.Add(onLack.Mul(onLack).Mul(half).Div(onSlope)),
		OffAverage:     offAverage,
		OffRMS:         units.Sqrt(offShare.Mul(square)),
		OffPulseRMS:    units.Sqrt(offShare.Mul(offPulse)),
		OffCharge:      offGap.Add(offLack.Mul(offLack).Mul(half).Div(offSlope)),
		Swing:          peak.Sub(units.Min(valley, zero)),
	}, nil
}
