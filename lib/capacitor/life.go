package capacitor

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LifeInputs are the arguments of Life.
type LifeInputs struct {
	Base         units.Quantity // life at RatedAmbient with RatedRipple, s
	RatedAmbient units.Quantity // air for which Base holds, °C
	RatedRipple  units.Quantity // RMS current for which Base holds, A
	RatedRise    units.Quantity // of the core above the air at RatedRipple, K
	Ambient      units.Quantity // air at the capacitor, °C
	Ripple       units.Quantity // RMS current, at the frequency of RatedRipple (RippleCurrent), A
	Voltage      units.Quantity // direct voltage, V; only with Exponent
	RatedVoltage units.Quantity // V; only with Exponent
	Exponent     float64        // of the voltage, as the maker gives it; left out: the voltage does not count
	Longest      units.Quantity // life that no formula promises, s; left out: 15 years
}

// LifeResult is what Life finds.
type LifeResult struct {
	Rise              units.Quantity // of the core above the air, K
	Core              units.Quantity // temperature of the core, °C
	Counted           units.Quantity // ambient that is counted with, °C
	TemperatureFactor units.Quantity // factor of the ambient, no unit
	RippleFactor      units.Quantity // factor of the ripple's heat, no unit
	VoltageShare      units.Quantity // of RatedVoltage, as it is counted, no unit
	VoltageFactor     units.Quantity // factor of the voltage, no unit
	Computed          units.Quantity // life by the formula, s
	Life              units.Quantity // that, but no longer than Longest, s
	CoreMargin        units.Quantity // of Core below what the rating allows, K
}

// Life estimates the life of an aluminium electrolytic capacitor with liquid
// electrolyte: it doubles with every 10 K that the core is cooler.
//
//	Rise              = rated rise · (ripple/rated ripple)²
//	Core              = ambient + Rise
//	Counted           = ambient, but no lower than 40 °C
//	TemperatureFactor = 2^((rated ambient − Counted)/10 K)
//	RippleFactor      = 2^((rated rise − Rise)/10 K), or /5 K where Rise is above rated rise
//	VoltageShare      = voltage/rated voltage, but no lower than 0.5
//	VoltageFactor     = VoltageShare^(−exponent)
//	Computed          = base · TemperatureFactor · RippleFactor · VoltageFactor
//	Life              = Computed, but no longer than longest
//	CoreMargin        = rated ambient + rated rise − Core
//
// Arguments: Base, s (write it in h), RatedRipple, A, and RatedRise, K, above
// zero; RatedAmbient and Ambient, °C; Ripple, A, not below zero; Exponent from
// 0 to 12, and with it Voltage and RatedVoltage, V, above zero; Longest, s,
// above zero or left out. It is an error outside of that, where the core
// would be hotter than the rating allows, where the ambient is below −55 °C or
// RatedAmbient is above 175 °C, and where Voltage is above RatedVoltage.
//
//	l, err := capacitor.Life(capacitor.LifeInputs{
//		Base: 5000h, RatedAmbient: 105°C, RatedRipple: 2.2A, RatedRise: 5K,
//		Ambient: Range(-20°C, 25°C, 60°C), Ripple: i.Equivalent,
//	})
//	// Low(l.Life) is that of a whole life at the hottest: In(Low(l.Life), "h")
//
// RatedRise is in the maker's guide: 5 K for most radial types for 105 °C,
// 10 K for some for 85 °C. At RatedRise both rules of RippleFactor agree.
// Makers' own formulas differ by a factor of 1.5 and more; take theirs where
// you have it. Holds for ambients of about 40 °C and more.
//
// Source: the rule of 10 K is Arrhenius' near 100 °C, as makers print it; the
// two steps of the ripple's factor, 2 and 4 for 10 K, are those of a maker's
// guide (Jianghai), the rest of it from memory.
//
// Caution: life ends when capacitance has fallen by a fifth or more and ESR
// has doubled, not when the part fails. Every minute counts by its own
// temperature: a range gives the life at its ends, not that of a mixture.
// Nothing of this holds for polymer capacitors, which gain tenfold for 20 K.
func Life(in LifeInputs) (LifeResult, error) {
	const function = "capacitor.Life"
	if err := argument.First(function,
		argument.Time.Positive("Base", in.Base),
		argument.Temperature("RatedAmbient", in.RatedAmbient),
		argument.Current.Positive("RatedRipple", in.RatedRipple),
		difference("RatedRise", in.RatedRise),
		argument.Temperature("Ambient", in.Ambient),
		argument.Current.NotNegative("Ripple", in.Ripple),
		argument.Time.Optional("Longest", in.Longest),
		in.voltages(),
	); err != nil {
		return LifeResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("RatedAmbient", in.RatedAmbient, "what such capacitors stand", units.MustParse("175 °C"), "take it from the data sheet's life, such as 105 °C"),
		argument.AtLeast("Ambient", in.Ambient, "what such capacitors stand", units.MustParse("-55 °C"), "give the air at the capacitor"),
	); err != nil {
		return LifeResult{}, err
	}
	one, half := units.Number(1), units.Number(0.5)
	ten, five := units.MustParse("10 K"), units.MustParse("5 K")
	longest := units.MustParse("131490 h")
	if argument.Given(in.Longest) {
		longest = in.Longest
	}
	load := in.Ripple.Div(in.RatedRipple)
	rise := in.RatedRise.Mul(load).Mul(load)
	core := in.Ambient.Add(rise)
	ceiling := in.RatedAmbient.Add(in.RatedRise)
	if err := argument.First(function, argument.AtMost("the core", core, "that at the rating", ceiling, "lower Ripple or Ambient, or take a part with more of either")); err != nil {
		return LifeResult{}, err
	}
	counted := units.Max(in.Ambient, units.MustParse("40 °C"))
	temperatureFactor := exp2(in.RatedAmbient.Sub(counted).Div(ten))
	less := in.RatedRise.Sub(rise)
	step := units.Where(less, less.Sub(less), five, ten)
	rippleFactor := exp2(less.Div(step))
	voltageShare, voltageFactor := one, one
	if in.Exponent != 0 {
		voltageShare = units.Max(in.Voltage.Div(in.RatedVoltage), half)
		voltageFactor = units.Pow(voltageShare, -in.Exponent)
	}
	computed := in.Base.Mul(temperatureFactor).Mul(rippleFactor).Mul(voltageFactor)
	life := units.Min(computed, longest)
	coreMargin := ceiling.Sub(core)
	return LifeResult{
		Rise:              rise,
		Core:              core,
		Counted:           counted,
		TemperatureFactor: temperatureFactor,
		RippleFactor:      rippleFactor,
		VoltageShare:      voltageShare,
		VoltageFactor:     voltageFactor,
		Computed:          computed,
		Life:              life,
		CoreMargin:        coreMargin,
	}, nil
}

// exp2 is 2 to the power of x.
func exp2(x units.Quantity) units.Quantity {
	return units.Exp(x.Mul(units.Ln(units.Number(2))))
}

// difference checks a temperature difference of 0.1 K to 60 K.
func difference(name string, x units.Quantity) error {
	kelvin := units.MustParse("1 K")
	if !argument.Given(x) || x.Dim() != kelvin.Dim() {
		return fmt.Errorf("%s is %v; it must be a temperature difference: write it in K, such as 5 K", name, x)
	}
	if err := argument.AtLeast(name, x, "a tenth of a kelvin", units.MustParse("0.1 K"), "makers give 5 K to 10 K"); err != nil {
		return err
	}
	return argument.AtMost(name, x, "60 K", units.MustParse("60 K"), "makers give 5 K to 10 K")
}

func (in LifeInputs) voltages() error {
	if !(0 <= in.Exponent && in.Exponent <= 12) {
		return fmt.Errorf("Exponent is %g; it must be from 0 to 12: take it from the maker's guide, or leave it out", in.Exponent)
	}
	if in.Exponent == 0 {
		if argument.Given(in.Voltage) {
			return fmt.Errorf("Voltage is %v, but without an Exponent it does not count: give that, or leave Voltage out", in.Voltage)
		}
		if argument.Given(in.RatedVoltage) {
			return fmt.Errorf("RatedVoltage is %v, but without an Exponent it does not count: give that, or leave RatedVoltage out", in.RatedVoltage)
		}
		return nil
	}
	for _, err := range []error{
		argument.Voltage.Positive("Voltage", in.Voltage),
		argument.Voltage.Positive("RatedVoltage", in.RatedVoltage),
	} {
		if err != nil {
			return err
		}
	}
	return argument.AtMost("Voltage", in.Voltage, "RatedVoltage", in.RatedVoltage, "take a part for a higher voltage")
}
