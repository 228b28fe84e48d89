package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DutyResult is what Duty finds.
type DutyResult struct {
	Ideal      units.Quantity // duty without any drop, no unit
	LeastInput units.Quantity // below which the drops leave no duty that reaches the output, V
	Current    units.Quantity // mean in switch and rectifier while they conduct, A
	InputMean  units.Quantity // mean of the current from the input, A
	OnVoltage  units.Quantity // across the inductance while its current rises, V
	OffVoltage units.Quantity // across it while the current falls, V
	Duty       units.Quantity // share of a period with the switch on, no unit
	OffShare   units.Quantity // the rest of it, no unit
}

// Duty computes the duty cycle of continuous conduction, with the drops of
// switch, rectifier and windings.
//
//	Ideal      = size/(input + size), where size is that of the output
//	LeastInput = load · (switch + rectifier + 2 · winding) + 2 · √(charging · (size + diode + load · (winding + rectifier)))
//	charging   = load · (switch + winding)
//	OffShare   = (b + √(b² − 4 · a · charging))/(2 · a)
//	a          = input + size + diode
//	b          = input + load · (switch − rectifier)
//	Current    = load/OffShare
//	OnVoltage  = input − Current · (switch + winding)
//	OffVoltage = size + diode + Current · (rectifier + winding)
//	Duty       = OffVoltage/(OnVoltage + OffVoltage)
//	InputMean  = Current · Duty
//
// and in a SEPIC, whose first winding carries InputMean and whose second the
// load,
//
//	LeastInput = load · (switch + rectifier) + 2 · √(charging · (size + diode + load · (second winding + rectifier)))
//	a          = input + size + diode + load · (winding + second winding)
//	b          = input + load · (2 · winding + switch − rectifier)
//	OnVoltage  = input − Current · switch − InputMean · winding
//	OffVoltage = size + diode + Current · rectifier + load · second winding
//
// Of a stage with an Efficiency, diode is size/efficiency − size: then Duty is
// size/(size + efficiency · input), as application notes have it.
//
// Arguments: a Stage, of which inductances are not needed: Input, V, and
// Frequency, Hz, above zero; Output, V, below zero, of a SEPIC above; Load, A,
// resistances, Ω, and Diode, V, not below zero; Efficiency, if given, above
// zero and at most 100 %. It is an error outside of that, and where Input is not above LeastInput or a thousandth of the output.
//
//	d, err := inverting.Duty(inverting.Stage{Input: 12V, Output: -5V, Load: 1A, Frequency: 500kHz, Diode: 0.5V})
//	// d.Duty: 31.43 %, d.Current: 1.458 A
//
// OffShare solves the balance OnVoltage · (1 − OffShare) = OffVoltage ·
// OffShare, which is quadratic because the drops rise as OffShare falls. Of
// two solutions it is the efficient one; at LeastInput both are one.
//
// Holds in continuous conduction; Currents gives the share below it. Give
// Input as a range: duty and Current are largest at its low end.
//
// Source: the mean voltage of an inductor and the mean current of a capacitor
// are zero in the settled state (Erickson and Maksimović, Fundamentals of
// Power Electronics, chapters 2 and 3, from memory).
//
// Caution: on-resistances are those at the junction's temperature. A soft
// supply that sags under the current of a start can fall below LeastInput and
// stay there.
func Duty(stage Stage) (DutyResult, error) {
	if err := argument.First("inverting.Duty", stage.check()); err != nil {
		return DutyResult{}, err
	}
	return stage.duty(), nil
}

func (s Stage) leastInput() units.Quantity {
	two, load, size, p := units.Number(2), s.Load, s.size(), s.parts()
	charging := load.Mul(p.on.Add(p.winding))
	discharging := load.Mul(p.second.Add(p.rectifier))
	extremes := charging.Mul(size.Add(p.diode).Add(discharging))
	series := p.on.Add(p.rectifier).Add(two.Mul(p.winding))
	if s.SEPIC {
		series = p.on.Add(p.rectifier)
	}
	return load.Mul(series).Add(two.Mul(units.Sqrt(extremes)))
}

func (s Stage) duty() DutyResult {
	two, input, load, size, p := units.Number(2), s.Input, s.Load, s.size(), s.parts()
	ideal := size.Div(input.Add(size))
	leastInput := s.leastInput()
	charging := load.Mul(p.on.Add(p.winding))
	a := input.Add(size).Add(p.diode)
	b := input.Add(load.Mul(p.on.Sub(p.rectifier)))
	if s.SEPIC {
		a = input.Add(size).Add(p.diode).Add(load.Mul(p.winding.Add(p.second)))
		b = input.Add(load.Mul(two.Mul(p.winding).Add(p.on).Sub(p.rectifier)))
	}
	// Above leastInput it is above zero; next to it rounding may say otherwise.
	square := b.Mul(b).Sub(units.Number(4).Mul(a).Mul(charging))
	root := units.Sqrt(units.Max(square, square.Sub(square)))
	share := b.Add(root).Div(two.Mul(a))
	current := load.Div(share)
	onDrop := current.Mul(p.on.Add(p.winding))
	offDrop := current.Mul(p.rectifier.Add(p.winding))
	if s.SEPIC {
		onDrop = current.Mul(p.on).Add(current.Sub(load).Mul(p.winding))
		offDrop = current.Mul(p.rectifier).Add(load.Mul(p.second))
	}
	onVoltage := input.Sub(onDrop)
	offVoltage := size.Add(p.diode).Add(offDrop)
	both := onVoltage.Add(offVoltage)
	duty := offVoltage.Div(both)
	return DutyResult{
		Ideal:      ideal,
		LeastInput: leastInput,
		Current:    current,
		InputMean:  current.Mul(duty),
		OnVoltage:  onVoltage,
		OffVoltage: offVoltage,
		Duty:       duty,
		OffShare:   onVoltage.Div(both),
	}
}
