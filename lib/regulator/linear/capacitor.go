package linear

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

var whole = units.MustParse("100 %")

// OutputCapacitorInputs are the arguments of OutputCapacitor.
type OutputCapacitorInputs struct {
	Marked           units.Quantity // capacitance as printed, with its tolerance, F
	Kept             units.Quantity // share that voltage, temperature and age leave, no unit; left out: all
	ESR              units.Quantity // equivalent series resistance at the loop's frequencies, Ω
	Series           units.Quantity // resistor put in series, Ω; left out: none
	LeastCapacitance units.Quantity // that the data sheet asks for, F
	MostCapacitance  units.Quantity // that it allows, F; left out: no such limit
	LeastESR         units.Quantity // that it asks for, Ω; left out: none
	MostESR          units.Quantity // that it allows, Ω
}

// OutputCapacitorResult is what OutputCapacitor finds.
type OutputCapacitorResult struct {
	Effective         units.Quantity // capacitance that is left, F
	Resistance        units.Quantity // ESR and series resistor together, Ω
	Zero              units.Quantity // frequency above which it is more resistor than capacitor, Hz
	CapacitanceMargin units.Quantity // to the nearer end of the window, F; below zero: outside
	ESRMargin         units.Quantity // to the nearer end of the window, Ω; below zero: outside
	LeastMarked       units.Quantity // marked capacitance that would just do, F
}

// OutputCapacitor holds an output capacitor against the window in which the
// data sheet promises a stable loop.
//
//	Effective         = marked · kept
//	Resistance        = ESR + series
//	Zero              = 1/(2π · Resistance · Effective)
//	CapacitanceMargin = smaller of Effective − least and most − Effective
//	ESRMargin         = smaller of Resistance − least ESR and most ESR − Resistance
//	LeastMarked       = least/kept
//
// Arguments: see OutputCapacitorInputs; capacitances, ESR and MostESR above
// zero, Kept above zero and not above 100 %, the upper end of each window not
// below the lower one. It is an error outside of that. A capacitor outside of
// the window is none: its margin is below zero, in each case by itself.
//
//	c, err := linear.OutputCapacitor(linear.OutputCapacitorInputs{
//		Marked: 10µF ± 20%, Kept: 60%, ESR: 5mΩ, Series: 220mΩ,
//		LeastCapacitance: 2.2µF, LeastESR: 100mΩ, MostESR: 1Ω,
//	})
//	// c.Effective: 6 µF; c.ESRMargin: 125 mΩ
//
// Holds for one capacitor that dominates at the output; of several in
// parallel, ceramic ones spread over the board can take away the ESR that an
// older regulator needs.
//
// Source: equivalent circuit of a capacitor; the window is the data sheet's.
//
// Caution: class 2 ceramic capacitors lose half and more of their value at
// their rated voltage, besides temperature and ageing: Kept is the product of
// all. The ESR of an aluminium capacitor rises many times in the cold, and
// with age: give it as a range. Many older low-dropout parts oscillate with
// a plain ceramic capacitor; newer ones ask for nothing else.
func OutputCapacitor(in OutputCapacitorInputs) (OutputCapacitorResult, error) {
	const function = "linear.OutputCapacitor"
	kept := whole
	if argument.Given(in.Kept) {
		kept = in.Kept
	}
	series := argument.Resistance.OrZero(in.Series)
	leastESR := argument.Resistance.OrZero(in.LeastESR)
	if err := argument.First(function,
		argument.Capacitance.Positive("Marked", in.Marked),
		argument.Share.Positive("Kept", kept),
		argument.Resistance.Positive("ESR", in.ESR),
		argument.Resistance.NotNegative("Series", series),
		argument.Capacitance.Positive("LeastCapacitance", in.LeastCapacitance),
		argument.Capacitance.Optional("MostCapacitance", in.MostCapacitance),
		argument.Resistance.NotNegative("LeastESR", leastESR),
		argument.Resistance.Positive("MostESR", in.MostESR),
	); err != nil {
		return OutputCapacitorResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Kept", kept, "the whole", whole, "write the share that is left, not the one that is lost"),
		argument.AtLeast("MostESR", in.MostESR, "LeastESR", leastESR, "take both from the data sheet"),
	); err != nil {
		return OutputCapacitorResult{}, err
	}
	effective := in.Marked.Mul(kept)
	resistance := in.ESR.Add(series)
	zero := zeroOf(resistance, effective)
	capacitanceMargin := effective.Sub(in.LeastCapacitance)
	if argument.Given(in.MostCapacitance) {
		if err := argument.First(function,
			argument.AtLeast("MostCapacitance", in.MostCapacitance, "LeastCapacitance", in.LeastCapacitance, "take both from the data sheet"),
		); err != nil {
			return OutputCapacitorResult{}, err
		}
		capacitanceMargin = units.Min(capacitanceMargin, in.MostCapacitance.Sub(effective))
	}
	esrMargin := units.Min(resistance.Sub(leastESR), in.MostESR.Sub(resistance))
	leastMarked := in.LeastCapacitance.Div(kept)
	return OutputCapacitorResult{
		Effective:         effective,
		Resistance:        resistance,
		Zero:              zero,
		CapacitanceMargin: capacitanceMargin,
		ESRMargin:         esrMargin,
		LeastMarked:       leastMarked,
	}, nil
}

// zeroOf is the frequency at which a capacitor's reactance is its resistance.
func zeroOf(resistance, capacitance units.Quantity) units.Quantity {
	return units.Number(1).Div(units.Number(2 * math.Pi).Mul(resistance).Mul(capacitance))
}

// ESRZeroInputs are the arguments of ESRZero.
type ESRZeroInputs struct {
	Capacitance units.Quantity // that is left in use, F
	Resistance  units.Quantity // ESR and series resistor together, Ω
	Lowest      units.Quantity // lower end of the window for the zero, Hz
	Highest     units.Quantity // upper end of the window for the zero, Hz
}

// ESRZeroResult is what ESRZero finds.
type ESRZeroResult struct {
	Zero            units.Quantity // frequency of the zero, Hz
	Margin          units.Quantity // factor to the nearer end of the window, no unit; below one: outside
	LeastResistance units.Quantity // with which the zero is at Highest, Ω
	MostResistance  units.Quantity // with which the zero is at Lowest, Ω
}

// ESRZero holds the zero that an output capacitor's series resistance puts
// into the loop against a window of frequencies: a hint whether the loop is
// stable, not a proof.
//
//	Zero            = 1/(2π · resistance · capacitance)
//	Margin          = smaller of Zero/lowest and highest/Zero
//	LeastResistance = 1/(2π · highest · capacitance)
//	MostResistance  = 1/(2π · lowest · capacitance)
//
// Arguments: see ESRZeroInputs; all above zero, Highest above Lowest. It is
// an error outside of that. A zero outside of the window is none: Margin is
// below one.
//
//	z, err := linear.ESRZero(linear.ESRZeroInputs{Capacitance: 10µF, Resistance: 1Ω, Lowest: 5kHz, Highest: 50kHz})
//	// z.Zero: 15.92 kHz; z.Margin: 3.14; the resistance from 318.3 mΩ to 3.183 Ω
//
// Holds for regulators whose loop needs the capacitor's zero, to win back
// phase before the gain has fallen to one: mostly older ones with a PNP or
// P-channel pass element. Too low a zero leaves the gain above one where the
// next poles are; too high a one comes too late.
//
// Source: equivalent circuit of a capacitor; the use of the zero as in TI
// application reports SLVA072 and SLVAEY8.
//
// Caution: take capacitance and resistance together at their extremes: cold
// and old for the largest resistance, hot and new for the smallest. A load
// step on the bench shows a loop that is nearly unstable: it rings.
func ESRZero(in ESRZeroInputs) (ESRZeroResult, error) {
	const function = "linear.ESRZero"
	if err := argument.First(function,
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Frequency.Positive("Lowest", in.Lowest),
		argument.Frequency.Positive("Highest", in.Highest),
	); err != nil {
		return ESRZeroResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Highest", in.Highest, "Lowest", in.Lowest, "write the two ends of the window in order"),
	); err != nil {
		return ESRZeroResult{}, err
	}
	capacitance, lowest, highest := in.Capacitance, in.Lowest, in.Highest
	zero := zeroOf(in.Resistance, capacitance)
	margin := units.Min(zero.Div(lowest), highest.Div(zero))
	least := units.Number(1).Div(units.Number(2 * math.Pi).Mul(highest).Mul(capacitance))
	most := units.Number(1).Div(units.Number(2 * math.Pi).Mul(lowest).Mul(capacitance))
	return ESRZeroResult{Zero: zero, Margin: margin, LeastResistance: least, MostResistance: most}, nil
}
