package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/units"
)

// InductorsResult is what Inductors finds.
type InductorsResult struct {
	Share                units.Quantity // of the ripple that the first inductor takes, no unit
	Ripple               units.Quantity // of the first, peak to peak, A
	Mean                 units.Quantity // of the first, A: the input current without what the losses add
	Peak                 units.Quantity // of the first, A
	Valley               units.Quantity // of the first, A; below zero where it gives current back
	RMS                  units.Quantity // of the first, A
	AlternatingRMS       units.Quantity // of the first without its mean, A
	SecondRipple         units.Quantity // of the second, peak to peak, A
	SecondMean           units.Quantity // of the second, A: the load
	SecondPeak           units.Quantity // A
	SecondValley         units.Quantity // A
	SecondRMS            units.Quantity // A
	SecondAlternatingRMS units.Quantity // of the second without its mean, A
	CouplingRMS          units.Quantity // of the coupling capacitor, A
	CouplingCharge       units.Quantity // that it takes and gives in each period, C
}

// Inductors computes what each inductor of a SEPIC carries, and its coupling
// capacitor, in continuous conduction and below its boundary.
//
//	Share          = second/(first + second); a half if Coupled
//	Ripple         = Share · ripple
//	Mean           = SwitchAverage
//	Valley         = Mean − Ripple · Conduction/2
//	Peak           = Valley + Ripple
//	AlternatingRMS = Ripple · √(Conduction/3 − Conduction²/4)
//	RMS            = √(Mean² + AlternatingRMS²)
//	SecondRipple   = (1 − Share) · ripple
//	SecondMean     = load
//	SecondValley, SecondPeak, SecondAlternatingRMS and SecondRMS likewise
//	on-square      = (SecondValley + SecondRipple/2)² + SecondRipple²/12
//	off-square     = (Valley + Ripple/2)² + Ripple²/12
//	CouplingRMS    = √(OnShare · on-square + OffShare · off-square + (1 − Conduction) · Valley²)
//	taken          = (Peak² − rest²)/(2 · off-slope), where rest is Valley, not below zero
//	resting        = rest · (1 − Conduction)/frequency
//	back           = SecondValley²/(2 · on-slope) if that is below zero, else none
//	given          = SecondPeak²/(2 · on-slope) − SecondValley²/(2 · on-slope) if that is above zero
//	CouplingCharge = taken + resting + back; if Valley is below zero the larger of taken and given
//
// with ripple, shares and Conduction as Currents finds them, and the slopes
// those of each inductor. The capacitor takes the current of the first
// inductor in the off-time and gives that of the second in the on-time; below
// the boundary one current, Valley, goes round through all three between
// pulses. In continuous conduction with both valleys above zero CouplingCharge
// is load · Duty/frequency.
//
// Arguments: as Currents, of a SEPIC. It is an error outside of that.
//
//	l, err := inverting.Inductors(sepic)
//	Require(l.Peak <= Isat, "the first inductor does not saturate")
//
// Holds where the coupling capacitor's ripple is small beside the input and
// the output; CouplingRipple adds what it drives through a leakage inductance.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics, chapter
// 2 (problem on the SEPIC), from memory; RMS value of a trapezoid from any
// textbook.
//
// Caution: a coupled pair saturates by the sum of both currents, Peak of
// Currents, two inductors of their own each by its own.
func Inductors(stage Stage) (InductorsResult, error) {
	const function = "inverting.Inductors"
	if err := argument.First(function, stage.twoInductors()); err != nil {
		return InductorsResult{}, err
	}
	c, err := stage.cycle()
	if err != nil {
		return InductorsResult{}, argument.Within(function, err)
	}
	return stage.inductors(c), nil
}

func (s Stage) inductors(c switching.CycleResult) InductorsResult {
	one, two, half, twelve := units.Number(1), units.Number(2), units.Number(0.5), units.Number(12)
	share, other := half, half
	if !s.Coupled {
		both := s.Inductance.Add(s.second())
		share, other = s.second().Div(both), s.Inductance.Div(both)
	}
	ripple, secondRipple := share.Mul(c.Ripple), other.Mul(c.Ripple)
	mean, secondMean := c.OnAverage, s.Load
	middle := c.Conduction.Mul(half)
	valley := mean.Sub(ripple.Mul(middle))
	secondValley := secondMean.Sub(secondRipple.Mul(middle))
	peak, secondPeak := valley.Add(ripple), secondValley.Add(secondRipple)
	form := units.Sqrt(c.Conduction.Div(units.Number(3)).Sub(middle.Mul(middle)))
	alternating, secondAlternating := ripple.Mul(form), secondRipple.Mul(form)
	rms := units.Sqrt(mean.Mul(mean).Add(alternating.Mul(alternating)))
	secondRMS := units.Sqrt(secondMean.Mul(secondMean).Add(secondAlternating.Mul(secondAlternating)))
	onMean, offMean := secondValley.Add(secondRipple.Mul(half)), valley.Add(ripple.Mul(half))
	onSquare := onMean.Mul(onMean).Add(secondRipple.Mul(secondRipple).Div(twelve))
	offSquare := offMean.Mul(offMean).Add(ripple.Mul(ripple).Div(twelve))
	idle := one.Sub(c.Conduction)
	couplingSquare := c.OnShare.Mul(onSquare).Add(c.OffShare.Mul(offSquare)).Add(idle.Mul(valley).Mul(valley))
	zero := ripple.Sub(ripple)
	rest := units.Max(valley, zero)
	back, above := units.Max(secondValley.Neg(), zero), units.Max(secondValley, zero)
	onSlope, offSlope := other.Mul(c.OnSlope), share.Mul(c.OffSlope)
	taken := peak.Mul(peak).Sub(rest.Mul(rest)).Div(two.Mul(offSlope))
	resting := rest.Mul(idle).Div(s.Frequency)
	backCharge := back.Mul(back).Div(two.Mul(onSlope))
	given := secondPeak.Mul(secondPeak).Sub(above.Mul(above)).Div(two.Mul(onSlope))
	atOnce := taken.Add(resting).Add(backCharge)
	couplingCharge := units.Where(valley, zero, units.Max(taken, given), atOnce)
	return InductorsResult{
		Share:                share,
		Ripple:               ripple,
		Mean:                 mean,
		Peak:                 peak,
		Valley:               valley,
		RMS:                  rms,
		AlternatingRMS:       alternating,
		SecondRipple:         secondRipple,
		SecondMean:           secondMean,
		SecondPeak:           secondPeak,
		SecondValley:         secondValley,
		SecondRMS:            secondRMS,
		SecondAlternatingRMS: secondAlternating,
		CouplingRMS:          units.Sqrt(couplingSquare),
		CouplingCharge:       couplingCharge,
	}
}
