package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// TimingInputs are the arguments of Timing.
type TimingInputs struct {
	Stage    Stage
	LeastOn  units.Quantity // shortest on-time that the regulator makes, s
	LeastOff units.Quantity // shortest off-time that the regulator makes, s; left out: none
}

// TimingResult is what Timing finds.
type TimingResult struct {
	Duty       units.Quantity // of continuous conduction, no unit
	OnTime     units.Quantity // of the high switch in continuous conduction, s
	OnMargin   units.Quantity // of OnTime above the shortest, s
	OffTime    units.Quantity // of the high switch in continuous conduction, s
	OffMargin  units.Quantity // of OffTime above the shortest, s
	MostDuty   units.Quantity // limit that LeastOff sets, no unit
	LeastInput units.Quantity // below which the output drops out, V
	MostInput  units.Quantity // above which pulses are skipped, V
	LightOn    units.Quantity // on-time at this load, shorter below the boundary, s
	LightSpare units.Quantity // of LightOn above the shortest, s; below zero pulses are skipped
}

// Timing holds a stage against the shortest on-time and the shortest
// off-time of its regulator.
//
//	OnTime     = Duty/frequency
//	OnMargin   = OnTime − LeastOn
//	OffTime    = (1 − Duty)/frequency
//	OffMargin  = OffTime − LeastOff
//	MostDuty   = 1 − LeastOff · frequency
//	LeastInput = OffVoltage/MostDuty − LowDrop + HighDrop
//	MostInput  = OffVoltage/(LeastOn · frequency) − LowDrop + HighDrop
//	LightOn    = OnShare/frequency
//	LightSpare = LightOn − LeastOn
//
// with Duty and the voltages as function Duty finds them, OnShare as Currents
// does.
//
// Arguments: Stage; LeastOn, s, above zero; LeastOff, s, not below zero, and
// shorter than a period. It is an error outside of that. Whether the margins
// suffice is for a requirement of the note to say.
//
//	t, err := stepdown.Timing(stepdown.TimingInputs{Stage: stage, LeastOn: 100ns, LeastOff: 150ns})
//	Require(t.OnMargin > 0s, "no pulses are skipped at full load")
//
// Give Input as a range: OnMargin is smallest at its high end, OffMargin at
// its low end. LeastInput and MostInput are at the load of the stage.
//
// Source: volt-second balance, as function Duty.
//
// Caution: a frequency has a tolerance of 10 % and more; the least on-time of
// a data sheet is often typical only. Skipped pulses are no fault in
// themselves, but the ripple grows and its frequency falls.
func Timing(in TimingInputs) (TimingResult, error) {
	const function = "stepdown.Timing"
	leastOff := argument.Time.OrZero(in.LeastOff)
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Time.Positive("LeastOn", in.LeastOn),
		argument.Time.NotNegative("LeastOff", leastOff),
	); err != nil {
		return TimingResult{}, err
	}
	one, frequency := units.Number(1), in.Stage.Frequency
	period := one.Div(frequency)
	mostDuty := one.Sub(leastOff.Mul(frequency))
	if err := argument.First(function,
		argument.Under("LeastOff", leastOff, "a period", period, "no time is left to switch on; lower the frequency"),
		argument.Share.Positive("the share that LeastOff leaves", mostDuty),
	); err != nil {
		return TimingResult{}, err
	}
	d, i := in.Stage.duty(), in.Stage.currents()
	onTime := d.Duty.Div(frequency)
	offTime := one.Sub(d.Duty).Div(frequency)
	drops := d.HighDrop.Sub(d.LowDrop)
	leastInput := d.OffVoltage.Div(mostDuty).Add(drops)
	mostInput := d.OffVoltage.Div(in.LeastOn.Mul(frequency)).Add(drops)
	return TimingResult{
		Duty:       d.Duty,
		OnTime:     onTime,
		OnMargin:   onTime.Sub(in.LeastOn),
		OffTime:    offTime,
		OffMargin:  offTime.Sub(leastOff),
		MostDuty:   mostDuty,
		LeastInput: leastInput,
		MostInput:  mostInput,
		LightOn:    i.OnTime,
		LightSpare: i.OnTime.Sub(in.LeastOn),
	}, nil
}
