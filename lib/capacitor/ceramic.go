package capacitor

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// CeramicInputs are the arguments of Ceramic.
type CeramicInputs struct {
	Printed   units.Quantity // capacitance of one, F
	Tolerance units.Quantity // of it, such as 10 %; left out: none
	Code      string         // of its temperature characteristic: "X7R", "C0G"
	Bias      units.Quantity // direct voltage across it, the highest, V
	Kept      table.Table    // from bias, V, to the share of Printed that is kept, %; class 1: left out
	Coldest   units.Quantity // its lowest temperature, °C
	Hottest   units.Quantity // its highest temperature, °C
	Ageing    units.Quantity // lost in each decade of hours, such as 2.5 %; class 1: left out
	Age       units.Quantity // since the last heat, of soldering, s; class 1: left out
	Count     int            // in parallel; left out: one
}

// CeramicResult is what Ceramic finds.
type CeramicResult struct {
	Printed         units.Quantity // of all in parallel, F
	BiasShare       units.Quantity // kept at Bias, no unit
	TemperatureLoss units.Quantity // share that temperature may take, no unit
	TemperatureGain units.Quantity // share that temperature may add, no unit
	Decades         units.Quantity // of hours since the last heat, no unit
	AgeShare        units.Quantity // kept of that, no unit
	Usual           units.Quantity // after bias and age, F
	Least           units.Quantity // with tolerance and temperature against it too, F
	Most            units.Quantity // new, with tolerance and temperature for it, F
	LeastShare      units.Quantity // of Printed: what may be counted on, no unit
	Missing         units.Quantity // Printed less Least, F: the printed value is not there
}

// Ceramic computes what is left of ceramic capacitors under bias, over
// temperature and with age: the factors multiply, and those that only take
// are on one side only.
//
//	Printed    = count · printed
//	BiasShare  = the curve at bias
//	Decades    = lg(age/1 h), none before
//	AgeShare   = 1 − ageing · Decades
//	Usual      = Printed · BiasShare · AgeShare
//	Least      = Usual · (1 − tolerance) · (1 − TemperatureLoss)
//	Most       = Printed · BiasShare · (1 + tolerance) · (1 + TemperatureGain)
//	LeastShare = Least/Printed
//	Missing    = Printed − Least
//
// TemperatureLoss and TemperatureGain are, for class 2, what the code allows over its whole
// range, and for class 1 the larger of |slope| ± either times the distance
// from 25 °C.
//
// Arguments: Printed, F, above zero; Tolerance and Ageing not below zero,
// below 1; Code as TemperatureCode reads it; Bias, V, not below zero; Kept, a
// curve from voltage to share; Coldest and Hottest, °C, within what the code
// covers; Age, s, above zero; Count from 1 to 100. Class 2 needs Kept, Ageing
// and Age: without them it is an error, because the printed value is not
// there. It is an error outside of that, and where Bias is outside the curve.
//
//	c, err := capacitor.Ceramic(capacitor.CeramicInputs{
//		Printed: 47µF, Tolerance: 20%, Code: "X5R", Bias: 5.25V, Kept: Table("bias.csv"),
//		Coldest: -20°C, Hottest: 60°C, Age: 87660h, Ageing: 2.5%, Count: 4,
//	})
//
// Holds for parts whose curve is measured at the same alternating voltage;
// where makers give the ageing from 24 h or 1000 h, give Age in that many.
//
// Source: EIA-198 (temperature); EIA-521 and IEC 60384 (ageing: a straight
// line over the logarithm of time), from memory; common practice for the
// product.
//
// Caution: take the curve of the very part, size and rated voltage; a smaller
// case of the same print keeps less. Bias is the highest the part will see.
// Curves are typical: add what your maker says of their spread to Tolerance.
// Every heat above the Curie point, of soldering too, starts Age again.
func Ceramic(in CeramicInputs) (CeramicResult, error) {
	const function = "capacitor.Ceramic"
	code, err := TemperatureCode(in.Code)
	if err := argument.First(function, err); err != nil {
		return CeramicResult{}, err
	}
	count := in.Count
	if count == 0 {
		count = 1
	}
	tolerance, ageing := argument.Share.OrZero(in.Tolerance), argument.Share.OrZero(in.Ageing)
	one := units.Number(1)
	if err := argument.First(function,
		argument.Capacitance.Positive("Printed", in.Printed),
		argument.Share.NotNegative("Tolerance", tolerance),
		argument.Voltage.NotNegative("Bias", in.Bias),
		argument.Temperature("Coldest", in.Coldest),
		argument.Temperature("Hottest", in.Hottest),
		argument.Share.NotNegative("Ageing", ageing),
		argument.Count("Count", count, 1, 100, "write how many are in parallel"),
		in.classTwo(code.Class),
	); err != nil {
		return CeramicResult{}, err
	}
	if err := argument.First(function,
		argument.Under("Tolerance", tolerance, "everything", one, "write the share that may be missing"),
		argument.AtLeast("Hottest", in.Hottest, "Coldest", in.Coldest, "exchange them"),
		argument.AtLeast("Coldest", in.Coldest, "the lowest temperature of "+in.Code, code.Lowest, "the code says nothing there; take a part for it"),
		argument.AtMost("Hottest", in.Hottest, "the highest temperature of "+in.Code, code.Highest, "the code says nothing there; take a part for it"),
	); err != nil {
		return CeramicResult{}, err
	}
	biasShare, decades := one, units.Number(0)
	if in.Kept.Given() {
		biasShare, err = in.Kept.At(in.Bias)
		if err := argument.First(function, err, argument.Share.Positive("the share kept at Bias", biasShare)); err != nil {
			return CeramicResult{}, err
		}
	}
	if argument.Given(in.Age) {
		if err := argument.First(function, argument.Time.Positive("Age", in.Age)); err != nil {
			return CeramicResult{}, err
		}
		decades = units.Log10(units.Max(in.Age.Div(units.MustParse("1 h")), one))
	}
	lostByAge := ageing.Mul(decades)
	if err := argument.First(function, argument.Under("what Age takes", lostByAge, "everything", one, "check Ageing, which is a few percent in a decade")); err != nil {
		return CeramicResult{}, err
	}
	room := units.MustParse("25 °C")
	away := units.Max(units.Abs(in.Hottest.Sub(room)), units.Abs(in.Coldest.Sub(room)))
	steepest := units.Abs(code.Slope).Add(code.Either)
	temperatureLoss := code.Lost.Add(steepest.Mul(away))
	temperatureGain := code.Gained.Add(steepest.Mul(away))
	printed := units.Number(float64(count)).Mul(in.Printed)
	ageShare := one.Sub(lostByAge)
	usual := printed.Mul(biasShare).Mul(ageShare)
	least := usual.Mul(one.Sub(tolerance)).Mul(one.Sub(temperatureLoss))
	most := printed.Mul(biasShare).Mul(one.Add(tolerance)).Mul(one.Add(temperatureGain))
	leastShare := least.Div(printed)
	missing := printed.Sub(least)
	return CeramicResult{
		Printed:         printed,
		BiasShare:       biasShare,
		TemperatureLoss: temperatureLoss,
		TemperatureGain: temperatureGain,
		Decades:         decades,
		AgeShare:        ageShare,
		Usual:           usual,
		Least:           least,
		Most:            most,
		LeastShare:      leastShare,
		Missing:         missing,
	}, nil
}

// classTwo refuses a part of class 2 that is to be taken at its printed value.
func (in CeramicInputs) classTwo(class int) error {
	if in.Kept.Given() {
		if err := in.Kept.Expect("Kept", "V", "%"); err != nil {
			return err
		}
	}
	switch {
	case class == 1:
		return nil
	case !in.Kept.Given():
		return errors.New("Kept is not given for a part of class 2, whose printed value is not there under bias: give the curve from bias to the share kept, from its data sheet")
	case !argument.Given(in.Ageing), !argument.Given(in.Age):
		return errors.New("Ageing or Age is not given for a part of class 2, which loses capacitance with time: give both, such as 2.5 % in a decade of hours and 10 years")
	}
	return nil
}
