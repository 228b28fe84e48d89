package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// InrushInputs are the arguments of Inrush.
type InrushInputs struct {
	Supply      units.Quantity // V
	Capacitance units.Quantity // that is charged, F
	Source      units.Quantity // resistance of source, wire and capacitor, Ω; left out: none
	Resistor    units.Quantity // that limits the current, Ω
	Load        units.Quantity // largest current afterwards, A; left out: none, or the resistor is bridged
	Rating      units.Quantity // pulse energy that the resistor survives, J
}

// InrushResult is what Inrush finds.
type InrushResult struct {
	Peak         units.Quantity // of the current, A
	TimeConstant units.Quantity // s
	Settled      units.Quantity // time to 1 % of the supply, s
	Stored       units.Quantity // energy in the capacitor, J
	Energy       units.Quantity // in the resistor, J
	EnergyMargin units.Quantity // of Rating above Energy, J; below zero: the resistor burns
	Integral     units.Quantity // I²t, A²·s
	Drop         units.Quantity // across the resistor at Load, V
	Loss         units.Quantity // in it at Load, W
}

// Inrush computes the charging of a capacitor through a resistor that limits
// the current.
//
//	Peak         = supply/(source + resistor)
//	TimeConstant = (source + resistor) · capacitance
//	Settled      = ln 100 · TimeConstant
//	Stored       = capacitance · supply²/2
//	Energy       = Stored · resistor/(source + resistor)
//	EnergyMargin = rating − Energy
//	Integral     = Peak² · TimeConstant/2
//	Drop         = load · resistor
//	Loss         = load · Drop
//
// Arguments: see InrushInputs; Supply, V, Capacitance, F, Resistor, Ω, and
// Rating, J, above zero; Source, Ω, and Load, A, not below. It is an error
// outside of that. An Energy above Rating is none: EnergyMargin is below zero.
//
//	i, err := protect.Inrush(protect.InrushInputs{Supply: 24V, Capacitance: 1mF, Resistor: 10Ω, Rating: 1J})
//	// i.Peak: 2.4 A; i.Energy: 288 mJ
//
// Holds for a load that starts once the capacitor is charged: one that starts
// at once may keep the capacitor from ever charging.
//
// Source: charging of a capacitor: the resistance turns as much into heat as
// the capacitor stores, whatever it is.
//
// Caution: the charge stays in the capacitor when the supply is gone. After a
// short failure of the supply a resistor that is bridged by then limits nothing.
func Inrush(in InrushInputs) (InrushResult, error) {
	source, load := argument.Resistance.OrZero(in.Source), argument.Current.OrZero(in.Load)
	if err := argument.First("protect.Inrush",
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("Source", source),
		argument.Resistance.Positive("Resistor", in.Resistor),
		argument.Current.NotNegative("Load", load),
		argument.Energy.Positive("Rating", in.Rating),
	); err != nil {
		return InrushResult{}, err
	}
	two := units.Number(2)
	path := source.Add(in.Resistor)
	peak := in.Supply.Div(path)
	timeConstant := path.Mul(in.Capacitance)
	settled := units.Ln(units.Number(100)).Mul(timeConstant)
	stored := in.Capacitance.Mul(in.Supply).Mul(in.Supply).Div(two)
	energy := stored.Mul(in.Resistor).Div(path)
	energyMargin := in.Rating.Sub(energy)
	integral := peak.Mul(peak).Mul(timeConstant).Div(two)
	drop := load.Mul(in.Resistor)
	loss := load.Mul(drop)
	return InrushResult{
		Peak:         peak,
		TimeConstant: timeConstant,
		Settled:      settled,
		Stored:       stored,
		Energy:       energy,
		EnergyMargin: energyMargin,
		Integral:     integral,
		Drop:         drop,
		Loss:         loss,
	}, nil
}

// ThermistorInputs are the arguments of Thermistor.
type ThermistorInputs struct {
	Supply      units.Quantity // V
	Capacitance units.Quantity // that is charged, F
	Source      units.Quantity // resistance of source, wire and capacitor, Ω; left out: none
	Resistance  units.Quantity // of the thermistor at 25 °C, with its tolerance, Ω
	Constant    units.Quantity // B of its curve, K
	Ambient     units.Quantity // °C
	Load        units.Quantity // largest current afterwards, A
	Dissipation units.Quantity // power per kelvin of rise, W/K
	Hottest     units.Quantity // highest temperature that the thermistor may have, °C
	Rating      units.Quantity // pulse energy that it survives, J
}

// ThermistorResult is what Thermistor finds.
type ThermistorResult struct {
	Cold         units.Quantity // resistance at Ambient, Ω
	Peak         units.Quantity // of the current, from cold, A
	Energy       units.Quantity // that charging leaves in the thermistor, at most, J
	EnergyMargin units.Quantity // of Rating above Energy, J; below zero: it cracks
	Temperature  units.Quantity // at Load, settled, °C
	Hot          units.Quantity // resistance there, Ω
	Drop         units.Quantity // across it at Load, V
	Loss         units.Quantity // in it at Load, W
	RestartPeak  units.Quantity // of the current if the supply comes back while it is hot, A
}

// Thermistor computes an inrush limiter that heats itself out of the way: a
// thermistor of negative temperature coefficient.
//
//	Cold         = resistance · e^(constant · (1/ambient − 1/298.15 K))
//	Peak         = supply/(source + Cold)
//	Energy       = capacitance · supply²/2 · Cold/(source + Cold)
//	EnergyMargin = rating − Energy
//	Temperature  = where load² · resistance(Temperature) = dissipation · (Temperature − ambient)
//	Hot          = resistance(Temperature)
//	Drop         = load · Hot
//	Loss         = load · Drop
//	RestartPeak  = supply/(source + Hot)
//
// with thermodynamic temperatures in the exponent.
//
// Arguments: see ThermistorInputs; all but Source and Load above zero, those
// not below; temperatures from −60 °C to 400 °C, Hottest above Ambient;
// Constant from 500 K to 10 000 K. It is an error outside of that, and where
// Load heats it beyond Hottest.
//
//	t, err := protect.Thermistor(protect.ThermistorInputs{
//		Supply: 24V, Capacitance: 2.2mF, Resistance: 5Ω ± 20%, Constant: 3000K, Ambient: Range(-20°C, 25°C, 60°C),
//		Load: 2A, Dissipation: 12mW/K, Hottest: 170°C, Rating: 5J,
//	})
//
// Holds for the law of one constant, near enough for a limiter, and a load
// that starts when the capacitor is charged.
//
// Source: the B-parameter equation (IEC 60539-1, from memory), balance of
// heat.
//
// Caution: it limits only while cold: it takes a minute to cool, and
// RestartPeak is what a short failure of the supply brings. Cold air raises its
// resistance many times: look whether the load starts at all then. Its surface
// is at Temperature: keep away what melts.
func Thermistor(in ThermistorInputs) (ThermistorResult, error) {
	const function = "protect.Thermistor"
	source := argument.Resistance.OrZero(in.Source)
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("Source", source),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Difference.Positive("Constant", in.Constant),
		argument.Temperature("Ambient", in.Ambient),
		argument.Current.NotNegative("Load", in.Load),
		argument.Slope.Positive("Dissipation", in.Dissipation),
		argument.Temperature("Hottest", in.Hottest),
		argument.Energy.Positive("Rating", in.Rating),
	); err != nil {
		return ThermistorResult{}, err
	}
	if err := argument.First(function,
		argument.AtLeast("Constant", in.Constant, "what thermistors have", units.MustParse("500 K"), "take B from the data sheet, such as 3000 K"),
		argument.AtMost("Constant", in.Constant, "what thermistors have", units.MustParse("10000 K"), "take B from the data sheet, such as 3000 K"),
		argument.AtLeast("Ambient", in.Ambient, "what thermistors work at", units.MustParse("-60 °C"), "check its sign"),
		argument.AtMost("Hottest", in.Hottest, "what thermistors survive", units.MustParse("400 °C"), "take it from the data sheet"),
		argument.Above("Hottest", in.Hottest, "Ambient", in.Ambient, "nothing is left for the load; lower Ambient"),
	); err != nil {
		return ThermistorResult{}, err
	}
	air, hottest := units.Absolute(in.Ambient), units.Absolute(in.Hottest)
	// The loss falls as the thermistor warms and the cooling rises, so that
	// they meet once, and below Hottest if cooling has the upper hand there.
	if err := argument.First(function,
		atMost("the loss of Load at Hottest", in.Load.Mul(in.Load).Mul(thermistorAt(in.Resistance, in.Constant, hottest)), "what is cooled there", in.Dissipation.Mul(hottest.Sub(air)), "the load overheats it; lower Load or Ambient, or choose a larger thermistor"),
	); err != nil {
		return ThermistorResult{}, err
	}
	cold := thermistorAt(in.Resistance, in.Constant, air)
	peak := in.Supply.Div(source.Add(cold))
	stored := in.Capacitance.Mul(in.Supply).Mul(in.Supply).Div(units.Number(2))
	energy := stored.Mul(cold).Div(source.Add(cold))
	energyMargin := in.Rating.Sub(energy)
	settled := settledThermistor(in, air, hottest)
	temperature := units.Temperature(settled)
	hot := thermistorAt(in.Resistance, in.Constant, settled)
	drop := in.Load.Mul(hot)
	loss := in.Load.Mul(drop)
	restartPeak := in.Supply.Div(source.Add(hot))
	return ThermistorResult{
		Cold:         cold,
		Peak:         peak,
		Energy:       energy,
		EnergyMargin: energyMargin,
		Temperature:  temperature,
		Hot:          hot,
		Drop:         drop,
		Loss:         loss,
		RestartPeak:  restartPeak,
	}, nil
}

// thermistorAt is the resistance at a thermodynamic temperature.
func thermistorAt(resistance, constant, absolute units.Quantity) units.Quantity {
	return resistance.Mul(units.Exp(constant.Div(absolute).Sub(constant.Div(units.MustParse("298.15 K")))))
}

// settledThermistor is the thermodynamic temperature at which the load heats it
// as much as the air cools it.
func settledThermistor(in ThermistorInputs, air, hottest units.Quantity) units.Quantity {
	kelvin := units.MustParse("1 K")
	return units.Solve("the temperature of the thermistor", air.Sub(kelvin), hottest.Add(kelvin), func(t units.Quantity) units.Quantity {
		return in.Dissipation.Mul(t.Sub(air)).Sub(in.Load.Mul(in.Load).Mul(thermistorAt(in.Resistance, in.Constant, t)))
	})
}
