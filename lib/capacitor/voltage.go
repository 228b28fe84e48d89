package capacitor

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LeakageInputs are the arguments of Leakage.
type LeakageInputs struct {
	Capacitance units.Quantity // F
	Voltage     units.Quantity // V
	Factor      units.Quantity // of µF times V in µA, as data sheets print it: 0.01; no unit
	Least       units.Quantity // below which the data sheet goes in no case, A; left out: none
}

// LeakageResult is what Leakage finds.
type LeakageResult struct {
	Product    units.Quantity // by capacitance and voltage, A
	Current    units.Quantity // that, or Least, A
	Resistance units.Quantity // that would take as much, Ω
}

// Leakage computes the largest leakage current of an electrolytic capacitor as
// its data sheet limits it.
//
//	Product    = factor · capacitance · voltage/1 s
//	Current    = the larger of Product and least
//	Resistance = voltage/Current
//
// Arguments: Capacitance, F, Voltage, V, and Factor above zero; Least, A, not
// below zero. It is an error outside of that. A Factor of 0.01 is what data
// sheets print as I = 0.01 CV with µA, µF and V.
//
//	l, err := capacitor.Leakage(capacitor.LeakageInputs{Capacitance: 4.7mF, Voltage: 35V, Factor: 0.01, Least: 3µA})
//
// Holds at 20 °C after some minutes at the rated voltage; usually the current
// is a tenth of it and less.
//
// Source: definition of the factor (makers' data sheets; IEC 60384-4 limits it
// likewise, from memory).
//
// Caution: after months without voltage the first current is many times as
// large, hot it is ten times. Never build a time of it.
func Leakage(in LeakageInputs) (LeakageResult, error) {
	least := argument.Current.OrZero(in.Least)
	if err := argument.First("capacitor.Leakage",
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Voltage.Positive("Voltage", in.Voltage),
		argument.Share.Positive("Factor", in.Factor),
		argument.Current.NotNegative("Least", least),
	); err != nil {
		return LeakageResult{}, err
	}
	product := in.Factor.Mul(in.Capacitance).Mul(in.Voltage).Div(units.MustParse("1 s"))
	current := units.Max(product, least)
	resistance := in.Voltage.Div(current)
	return LeakageResult{Product: product, Current: current, Resistance: resistance}, nil
}

// VoltageInputs are the arguments of VoltageDerating.
type VoltageInputs struct {
	Rated       units.Quantity // voltage printed on the part, V
	Applied     units.Quantity // direct voltage and the peak of its ripple, at most, V
	Use         units.Quantity // share of the rating that is to be used, such as 50 %
	Temperature units.Quantity // of the part, at most, °C
	Full        units.Quantity // up to which the rating holds in full, °C; left out: at any
	Last        units.Quantity // up to which the part may be used, °C; only with Full
	LastShare   units.Quantity // of the rating left at Last, such as 67 %; only with Full
}

// VoltageResult is what VoltageDerating finds.
type VoltageResult struct {
	Share    units.Quantity // of the rating left at Temperature, no unit
	Category units.Quantity // voltage that the part stands there, V
	Allowed  units.Quantity // share of it that is to be used, V
	Used     units.Quantity // Applied over Category, no unit
	Margin   units.Quantity // of Allowed over Applied, V; below zero: too much
}

// VoltageDerating holds the voltage across a film, tantalum, polymer or any
// other capacitor against what is left of its rating when it is hot, and
// against the share of that which is to be used.
//
//	Share    = 1 up to full, then on a straight line to last share at last
//	Category = rated · Share
//	Allowed  = Category · use
//	Used     = applied/Category
//	Margin   = Allowed − applied
//
// Arguments: Rated, V, above zero; Applied, V, not below zero; Use and
// LastShare above zero, at most 1; Temperature, °C; Full and Last, °C, in
// rising order, both with LastShare, or none of the three. It is an error
// outside of that, where Temperature is above Last, and where Applied is above
// Category: there the part fails.
//
//	v, err := capacitor.VoltageDerating(capacitor.VoltageInputs{
//		Rated: 16V, Applied: 5.25V, Use: 50%, Temperature: 60°C, Full: 85°C, Last: 125°C, LastShare: 67%,
//	})
//	Require(v.Margin >= 0V, "the tantalum capacitor is used at no more than half its rating")
//
// Common practice for Use: 50 % for tantalum with manganese dioxide, 90 % for
// polymer tantalum up to 10 V and 80 % above, 100 % for aluminium. Full is
// 85 °C and Last 125 °C with two thirds for tantalum; film loses 1.25 % (PET)
// to 1.5 % and more (PP) per kelvin above 85 °C.
//
// Source: KEMET, How much do you derate tantalum capacitors, and How much do I
// need to derate polymer capacitors (Use); two thirds at 125 °C and film from
// memory.
//
// Caution: tantalum that fails burns: a low source resistance and switching on
// stress it most. Alternating voltage on film has limits of its own, which
// fall with the frequency.
func VoltageDerating(in VoltageInputs) (VoltageResult, error) {
	const function = "capacitor.VoltageDerating"
	one := units.Number(1)
	if err := argument.First(function,
		argument.Voltage.Positive("Rated", in.Rated),
		argument.Voltage.NotNegative("Applied", in.Applied),
		argument.Share.Positive("Use", in.Use),
		argument.Temperature("Temperature", in.Temperature),
	); err != nil {
		return VoltageResult{}, err
	}
	if err := argument.First(function, argument.AtMost("Use", in.Use, "everything", one, "write the share that is to be used")); err != nil {
		return VoltageResult{}, err
	}
	share := one
	if argument.Given(in.Full) || argument.Given(in.Last) || argument.Given(in.LastShare) {
		if err := argument.First(function,
			argument.Temperature("Full", in.Full),
			argument.Temperature("Last", in.Last),
			argument.Share.Positive("LastShare", in.LastShare),
		); err != nil {
			return VoltageResult{}, err
		}
		if err := argument.First(function,
			argument.Above("Last", in.Last, "Full", in.Full, "exchange them"),
			argument.AtMost("LastShare", in.LastShare, "everything", one, "write the share of the rating that is left"),
			argument.AtMost("Temperature", in.Temperature, "Last", in.Last, "the part is not made for it; cool it, or take another"),
		); err != nil {
			return VoltageResult{}, err
		}
		over := units.Max(in.Temperature, in.Full).Sub(in.Full)
		share = one.Sub(one.Sub(in.LastShare).Mul(over).Div(in.Last.Sub(in.Full)))
	}
	category := in.Rated.Mul(share)
	if err := argument.First(function, argument.AtMost("Applied", in.Applied, "what is left of Rated", category, "take a part for a higher voltage, or cool it")); err != nil {
		return VoltageResult{}, err
	}
	allowed := category.Mul(in.Use)
	used := in.Applied.Div(category)
	margin := allowed.Sub(in.Applied)
	return VoltageResult{Share: share, Category: category, Allowed: allowed, Used: used, Margin: margin}, nil
}
