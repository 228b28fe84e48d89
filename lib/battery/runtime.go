package battery

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// CapacityInputs are the arguments of Capacity.
type CapacityInputs struct {
	Rated         units.Quantity // capacity as printed, Ah
	Temperature   units.Quantity // of the battery, °C; with ByTemperature
	ByTemperature table.Table    // share of Rated over temperature, °C and %; left out: all of it
	Load          units.Quantity // current, A; with ByRate
	ByRate        table.Table    // share of Rated over current, A and %; left out: all of it
	Cycles        units.Quantity // charges and discharges so far, a number; with ByCycles
	ByCycles      table.Table    // share of Rated over cycles, 1 and %; left out: all of it
	Aged          units.Quantity // share that years leave, %; left out: all of it
}

// CapacityResult is what Capacity finds.
type CapacityResult struct {
	TemperatureShare units.Quantity // no unit
	RateShare        units.Quantity // no unit
	CycleShare       units.Quantity // no unit
	AgeShare         units.Quantity // no unit
	Share            units.Quantity // of Rated that is left, no unit
	Left             units.Quantity // Ah
}

// Capacity computes what temperature, rate, cycles and age leave of a rated
// capacity, each read from a curve of the data sheet.
//
//	Share = TemperatureShare · RateShare · CycleShare · AgeShare
//	Left  = rated · Share
//
// Arguments: see CapacityInputs; Rated above zero; of each table with what it
// is read at; Aged above zero and not above 100 %. A curve that is left out
// takes nothing. It is an error outside of that and outside of a table's rows.
//
//	c, err := battery.Capacity(battery.CapacityInputs{Rated: 500mAh, Temperature: -10°C, ByTemperature: cold, Aged: 80%})
//
// Holds as far as the causes are independent: the shares multiply. In the cold
// a high rate costs more than both curves say; take a curve measured at the
// rate of the design then.
//
// Source: IEEE Std 1013, capacity adjustment by factors for temperature, rate
// and end of life, from memory; common practice calls a battery worn out at 80 %.
//
// Caution: do not count on the shares above 100 % that some curves show when hot: heat
// ages. Below 0 °C most lithium cells deliver, but must not be charged.
func Capacity(in CapacityInputs) (CapacityResult, error) {
	const function = "battery.Capacity"
	one := units.Number(1)
	if err := argument.First(function,
		argument.Capacity.Positive("Rated", in.Rated),
		argument.Share.Optional("Aged", in.Aged),
	); err != nil {
		return CapacityResult{}, err
	}
	ageShare := one
	if argument.Given(in.Aged) {
		if err := argument.First(function, argument.AtMost("Aged", in.Aged, "all of it", one, "write what is left, not what is lost")); err != nil {
			return CapacityResult{}, err
		}
		ageShare = in.Aged.Mul(one)
	}
	temperatureShare, err := shareAt("ByTemperature", in.ByTemperature, "°C", in.Temperature)
	if err != nil {
		return CapacityResult{}, argument.First(function, err)
	}
	rateShare, err := shareAt("ByRate", in.ByRate, "A", in.Load)
	if err != nil {
		return CapacityResult{}, argument.First(function, err)
	}
	cycleShare, err := shareAt("ByCycles", in.ByCycles, "1", in.Cycles)
	if err != nil {
		return CapacityResult{}, argument.First(function, err)
	}
	share := temperatureShare.Mul(rateShare).Mul(cycleShare).Mul(ageShare)
	left := in.Rated.Mul(share)
	return CapacityResult{
		TemperatureShare: temperatureShare, RateShare: rateShare, CycleShare: cycleShare, AgeShare: ageShare,
		Share: share, Left: left,
	}, nil
}

// shareAt reads a share from a curve; all of it where there is none.
func shareAt(name string, curve table.Table, unit string, x units.Quantity) (units.Quantity, error) {
	one := units.Number(1)
	if !curve.Given() {
		return one, nil
	}
	if err := curve.Expect(name, unit, "%"); err != nil {
		return none, err
	}
	share, err := curve.At(x)
	if err != nil {
		return none, err
	}
	if err := argument.Share.NotNegative("the share in "+name, share); err != nil {
		return none, err
	}
	return share.Mul(one), nil
}

// RunTimeInputs are the arguments of RunTime.
type RunTimeInputs struct {
	Capacity      units.Quantity // that is there, Ah: see Capacity
	Usable        units.Quantity // share of it down to the cut-off, %: see Headroom; left out: all of it
	Current       units.Quantity // average, A: see Modes
	SelfDischarge units.Quantity // share of what is there that is lost by itself, %; left out: nothing
	Per           units.Quantity // in this time, s; with SelfDischarge
	Shelf         units.Quantity // longest life whatever the load, s; left out: no limit
}

// RunTimeResult is what RunTime finds.
type RunTimeResult struct {
	Usable    units.Quantity // capacity, Ah
	Ideal     units.Quantity // time without self-discharge, s
	Kept      units.Quantity // share of Ideal that self-discharge leaves, no unit
	Time      units.Quantity // until the usable capacity is gone, or Shelf, s
	Delivered units.Quantity // to the load, Ah
	Lost      units.Quantity // by self-discharge, Ah
	Unused    units.Quantity // still there at the end, Ah: above zero where Shelf ends it
}

// RunTime computes how long a battery lasts at an average current, while it
// also discharges by itself.
//
//	Usable = capacity · usable share
//	Ideal  = Usable/current
//	loss   = −ln(1 − self-discharge)/per, a rate
//	x      = loss · Ideal
//	Kept   = ln(1 + x)/x, 1 without self-discharge
//	Time   = Ideal · Kept, not above shelf
//
// Arguments: see RunTimeInputs; Capacity, Current, Per and Shelf above zero,
// Usable above zero and not above 100 %, SelfDischarge not below zero and below
// 100 %. It is an error outside of that.
//
//	t, err := battery.RunTime(battery.RunTimeInputs{Capacity: 500mAh, Current: 200µA, SelfDischarge: 2%, Per: 30d})
//	// t.Time: 96.58 d; t.Lost: 36.42 mAh
//
// Holds for a loss in proportion to what is left: dQ/dt = −I − loss · Q, which
// is Kept. What comes out at the load and what is lost add up to Usable.
//
// Source: self-discharge in per cent a month as data sheets give it (IEC 61960
// and IEC 60086 measure what is left after storage, from memory); the solution
// of the linear differential equation.
//
// Caution: self-discharge doubles about every 10 K (common practice). A
// protection circuit takes a few microamperes beside it: add it to the sleep
// current. A run time of years is a promise about seals, not only about charge:
// give Shelf.
func RunTime(in RunTimeInputs) (RunTimeResult, error) {
	const function = "battery.RunTime"
	one := units.Number(1)
	share := in.Usable
	if !argument.Given(share) {
		share = one
	}
	if err := argument.First(function,
		argument.Capacity.Positive("Capacity", in.Capacity),
		argument.Share.Positive("Usable", share),
		argument.AtMost("Usable", share, "all of it", one, "write the share down to the cut-off"),
		argument.Current.Positive("Current", in.Current),
		argument.Time.Optional("Shelf", in.Shelf),
	); err != nil {
		return RunTimeResult{}, err
	}
	usable := in.Capacity.Mul(share)
	ideal := usable.Div(in.Current)
	loss := argument.Frequency.OrZero(none)
	if argument.Given(in.SelfDischarge) || argument.Given(in.Per) {
		var err error
		if loss, err = lossRate(in.SelfDischarge, in.Per); err != nil {
			return RunTimeResult{}, argument.First(function, err)
		}
	}
	x := loss.Mul(ideal)
	kept := units.Lanewise("Kept", one, func(x []float64) float64 {
		if x[0] < 1e-9 {
			return 1
		}
		return math.Log1p(x[0]) / x[0]
	}, x)
	whole := ideal.Mul(kept)
	time := whole
	if argument.Given(in.Shelf) {
		time = units.Min(whole, in.Shelf)
	}
	delivered := in.Current.Mul(time)
	// What is left at the time, of the same equation.
	decay := units.Exp(loss.Mul(time).Neg())
	gone := fadeOver(loss.Mul(time)).Mul(time)
	nothing := usable.Sub(usable)
	unused := units.Max(usable.Mul(decay).Sub(in.Current.Mul(gone)), nothing)
	unused = units.Where(time, whole, unused, nothing) // used up, without a rounding
	lost := usable.Sub(delivered).Sub(unused)
	return RunTimeResult{
		Usable: usable, Ideal: units.In(ideal, "d"), Kept: kept, Time: units.In(time, "d"),
		Delivered: units.In(delivered, "Ah"), Lost: units.In(lost, "Ah"), Unused: units.In(unused, "Ah"),
	}, nil
}

// fadeOver is (1 − e^(−x))/x, 1 at 0.
func fadeOver(x units.Quantity) units.Quantity {
	return units.Lanewise("1 − e^(−x) over x", units.Number(1), func(x []float64) float64 {
		if x[0] < 1e-9 {
			return 1
		}
		return -math.Expm1(-x[0]) / x[0]
	}, x)
}

// lossRate is the rate of a share that is lost per time.
func lossRate(share, per units.Quantity) (units.Quantity, error) {
	one := units.Number(1)
	for _, err := range []error{
		argument.Share.NotNegative("SelfDischarge", share),
		argument.Time.Positive("Per", per),
	} {
		if err != nil {
			return none, err
		}
	}
	if err := argument.Under("SelfDischarge", share, "all of it", one, "write the share lost in Per, such as 2 % per 30 d"); err != nil {
		return none, err
	}
	left := one.Sub(share)
	return units.Ln(left).Neg().Div(per), nil
}

// StorageInputs are the arguments of Storage.
type StorageInputs struct {
	Capacity      units.Quantity // at the start, Ah
	SelfDischarge units.Quantity // share of what is there that is lost, %
	Per           units.Quantity // in this time, s
	Time          units.Quantity // on the shelf, s
}

// StorageResult is what Storage finds.
type StorageResult struct {
	Kept units.Quantity // share, no unit
	Left units.Quantity // Ah
	Lost units.Quantity // Ah
}

// Storage computes what is left of a battery after it lay on the shelf.
//
//	Kept = (1 − self-discharge)^(time/per)
//	Left = capacity · Kept
//
// Arguments: see StorageInputs; Capacity and Per above zero, Time not below,
// SelfDischarge not below zero and below 100 %. It is an error outside of that.
//
//	s, err := battery.Storage(battery.StorageInputs{Capacity: 1.2Ah, SelfDischarge: 1%, Per: 365d, Time: 3650d})
//	// s.Left: 1.085 Ah
//
// Holds at the temperature for which the share is stated.
//
// Source: as RunTime: a share of what is left is lost in each equal time.
func Storage(in StorageInputs) (StorageResult, error) {
	const function = "battery.Storage"
	if err := argument.First(function,
		argument.Capacity.Positive("Capacity", in.Capacity),
		argument.Time.NotNegative("Time", in.Time),
	); err != nil {
		return StorageResult{}, err
	}
	loss, err := lossRate(in.SelfDischarge, in.Per)
	if err != nil {
		return StorageResult{}, argument.First(function, err)
	}
	kept := units.Exp(loss.Mul(in.Time).Neg())
	left := in.Capacity.Mul(kept)
	return StorageResult{Kept: kept, Left: left, Lost: in.Capacity.Sub(left)}, nil
}
