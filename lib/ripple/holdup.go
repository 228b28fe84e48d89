package ripple

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// HoldUpInputs are the arguments of HoldUp.
type HoldUpInputs struct {
	Capacitance    units.Quantity // at the end of life, F
	Start          units.Quantity // voltage at the moment the source fails, V
	Stop           units.Quantity // voltage below which the load no longer works, V
	LoadCurrent    units.Quantity // A, the same at any voltage; or
	LoadPower      units.Quantity // W, behind a converter; or
	LoadResistance units.Quantity // Ω
	Efficiency     units.Quantity // of the converter that gives LoadPower, no unit; left out: all
}

// HoldUpResult is what HoldUp finds.
type HoldUpResult struct {
	Taken       units.Quantity // LoadPower as the converter takes it, W
	MeanCurrent units.Quantity // out of the capacitor, A
	Energy      units.Quantity // that the capacitor gives, J
	Time        units.Quantity // from Start down to Stop, s
}

// HoldUp computes how long a capacitor feeds its load after the source has
// failed.
//
//	Taken       = load power/efficiency
//	MeanCurrent = load current, or
//	              2 · Taken/(start + stop), or
//	              (start − stop)/(load resistance · ln(start/stop))
//	Energy      = capacitance · (start² − stop²)/2
//	Time        = capacitance · (start − stop)/MeanCurrent
//
// which for a power is Energy/Taken, and for a resistance
// R · C · ln(start/stop).
//
// Arguments: Capacitance, F, above zero; Start, V, above Stop, V, above zero;
// one of LoadCurrent, A, LoadPower, W, and LoadResistance, Ω, above zero;
// Efficiency above zero, at most 1, for LoadPower only. It is an error
// outside of that.
//
//	h, err := ripple.HoldUp(ripple.HoldUpInputs{
//		Capacitance: 3.2mF, Start: r.Valley, Stop: uvlo.Stop, LoadPower: 8W, Efficiency: 85%,
//	})
//	// h.Time: give Start at its lowest, the valley of the ripple at the lowest input
//
// Holds where the load does not change on the way.
//
// Source: charge and energy of a capacitor.
//
// Caution: Capacitance is what is left after tolerance, cold, and life
// (HoldUpCapacitor starts from the printed value). ESR takes its current times
// itself off Start. Stop is where the converter's input lockout acts, at its
// highest.
func HoldUp(in HoldUpInputs) (HoldUpResult, error) {
	const function = "ripple.HoldUp"
	if err := argument.First(function, argument.Capacitance.Positive("Capacitance", in.Capacitance)); err != nil {
		return HoldUpResult{}, err
	}
	feeds, err := in.check()
	if err := argument.First(function, err); err != nil {
		return HoldUpResult{}, err
	}
	taken := in.taken()
	meanCurrent := in.meanCurrent(feeds)
	energy := in.Capacitance.Mul(in.Start.Sub(in.Stop)).Mul(in.Start.Add(in.Stop)).Mul(units.Number(0.5))
	time := in.Capacitance.Mul(in.Start.Sub(in.Stop)).Div(meanCurrent)
	return HoldUpResult{Taken: taken, MeanCurrent: meanCurrent, Energy: energy, Time: time}, nil
}

func (in HoldUpInputs) check() (load, error) {
	feeds, err := loadOf(in.LoadCurrent, in.LoadPower, in.LoadResistance)
	for _, err := range []error{
		argument.Voltage.Positive("Start", in.Start),
		argument.Voltage.Positive("Stop", in.Stop),
		err,
		argument.Share.Optional("Efficiency", in.Efficiency),
	} {
		if err != nil {
			return load{}, err
		}
	}
	if argument.Given(in.Efficiency) {
		if err := argument.AtMost("Efficiency", in.Efficiency, "everything", units.Number(1), "write what comes out over what goes in"); err != nil {
			return load{}, err
		}
		if feeds.kind != ofPower {
			return load{}, fmt.Errorf("Efficiency is %v, but the load is not a LoadPower, as a converter takes it: give that, or leave Efficiency out", in.Efficiency)
		}
	}
	return feeds, argument.Above("Start", in.Start, "Stop", in.Stop, "nothing is left to hold the load up; raise the voltage or lower the lockout")
}

// taken is the power out of the capacitor.
func (in HoldUpInputs) taken() units.Quantity {
	power := argument.Power.OrZero(in.LoadPower)
	if argument.Given(in.Efficiency) {
		return power.Div(in.Efficiency)
	}
	return power
}

func (in HoldUpInputs) meanCurrent(feeds load) units.Quantity {
	switch feeds.kind {
	case ofPower:
		return in.taken().Mul(units.Number(2)).Div(in.Start.Add(in.Stop))
	case ofResistance:
		// ln(1 + x), which a small difference needs.
		over := in.Start.Sub(in.Stop).Div(in.Stop)
		return in.Start.Sub(in.Stop).Div(feeds.size.Mul(logOver(over)))
	}
	return feeds.size
}

// HoldUpCapacitorInputs are the arguments of HoldUpCapacitor.
type HoldUpCapacitorInputs struct {
	Time           units.Quantity // to be held up, s
	Start          units.Quantity // voltage at the moment the source fails, V
	Stop           units.Quantity // voltage below which the load no longer works, V
	LoadCurrent    units.Quantity // A, the same at any voltage; or
	LoadPower      units.Quantity // W, behind a converter; or
	LoadResistance units.Quantity // Ω
	Efficiency     units.Quantity // of the converter that gives LoadPower, no unit; left out: all
	Tolerance      units.Quantity // of the printed value, such as 20 %; left out: none
	Cold           units.Quantity // share lost at the lowest temperature, such as 10 %; left out: none
	Life           units.Quantity // share lost at the end of life, such as 20 %; left out: none
}

// HoldUpCapacitorResult is what HoldUpCapacitor finds.
type HoldUpCapacitorResult struct {
	MeanCurrent units.Quantity // out of the capacitor, A
	Needed      units.Quantity // capacitance at the end of life, F
	Kept        units.Quantity // share of the printed value that is left then, no unit
	Printed     units.Quantity // capacitance to buy, at least, F
}

// HoldUpCapacitor finds the capacitance that feeds a load for a time after the
// source has failed, and what must be printed on the capacitor for that at the
// end of its life.
//
//	Needed  = time · MeanCurrent/(start − stop)
//	Kept    = (1 − tolerance) · (1 − cold) · (1 − life)
//	Printed = Needed/Kept
//
// with MeanCurrent as HoldUp finds it.
//
// Arguments: as HoldUp, with Time, s, above zero in place of Capacitance;
// Tolerance, Cold and Life not below zero, below 1. It is an error outside of
// that.
//
//	c, err := ripple.HoldUpCapacitor(ripple.HoldUpCapacitorInputs{
//		Time: 20ms, Start: 28V, Stop: 15V, LoadPower: 8W, Efficiency: 85%, Tolerance: 20%, Cold: 10%, Life: 20%,
//	})
//	C := AtLeast(E6, High(c.Printed))
//
// Source: charge of a capacitor; common practice for what is lost: an aluminium
// electrolytic capacitor ends its life when a fifth or more is gone.
//
// Caution: the losses multiply. If Start is the valley of a ripple, it depends
// on the capacitance found: compute that with what is bought.
func HoldUpCapacitor(in HoldUpCapacitorInputs) (HoldUpCapacitorResult, error) {
	const function = "ripple.HoldUpCapacitor"
	held := HoldUpInputs{
		Start: in.Start, Stop: in.Stop,
		LoadCurrent: in.LoadCurrent, LoadPower: in.LoadPower, LoadResistance: in.LoadResistance, Efficiency: in.Efficiency,
	}
	tolerance, cold, life := argument.Share.OrZero(in.Tolerance), argument.Share.OrZero(in.Cold), argument.Share.OrZero(in.Life)
	one := units.Number(1)
	feeds, err := held.check()
	if err := argument.First(function,
		argument.Time.Positive("Time", in.Time),
		err,
		argument.Share.NotNegative("Tolerance", tolerance),
		argument.Share.NotNegative("Cold", cold),
		argument.Share.NotNegative("Life", life),
	); err != nil {
		return HoldUpCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.Under("Tolerance", tolerance, "everything", one, "write the share that may be missing"),
		argument.Under("Cold", cold, "everything", one, "write the share that is lost"),
		argument.Under("Life", life, "everything", one, "write the share that is lost"),
	); err != nil {
		return HoldUpCapacitorResult{}, err
	}
	meanCurrent := held.meanCurrent(feeds)
	needed := in.Time.Mul(meanCurrent).Div(in.Start.Sub(in.Stop))
	kept := one.Sub(tolerance).Mul(one.Sub(cold)).Mul(one.Sub(life))
	printed := needed.Div(kept)
	return HoldUpCapacitorResult{MeanCurrent: meanCurrent, Needed: needed, Kept: kept, Printed: printed}, nil
}
