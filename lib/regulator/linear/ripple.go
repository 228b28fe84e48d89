package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Rejections are kept between what an instrument can show and what a loop
// that resonates may add.
var (
	mostRejection  = units.MustParse("200 dB")
	leastRejection = units.MustParse("-60 dB")
)

// Rejection returns the ripple rejection at a frequency, from a curve as a
// data sheet states or draws it.
//
//	rejection = rejection₁ + (rejection₂ − rejection₁) · ln(frequency/frequency₁)/ln(frequency₂/frequency₁)
//
// between the two rows around frequency: straight over a logarithmic axis.
//
// Arguments: curve, a table of the frequency, Hz, above zero, and the
// rejection, dB, from −60 dB to 200 dB, the first above 0 dB; frequency, Hz,
// from its first row to its last. Result: a ratio in dB, above zero where
// ripple is made smaller. It is an error outside of that.
//
//	r, err := linear.Rejection(table.Text("frequency [kHz], rejection [dB]\n1, 60\n100, 20"), 10kHz)   // 40 dB
//
// Holds for ripple small against the headroom.
//
// Source: straight-line interpolation on the axes of the usual diagram.
//
// Caution: a single figure of a data sheet is mostly for 100 Hz to 1 kHz; a
// switching regulator in front ripples where a tenth of it is left. Rejection
// falls with the load, falls steeply as the headroom goes, and is nothing in
// dropout. Some data sheets write it with a minus sign.
func Rejection(curve table.Table, frequency units.Quantity) (units.Quantity, error) {
	const function = "linear.Rejection"
	curve, err := rejectionCurve(curve)
	if err := argument.First(function, err, argument.Frequency.Positive("frequency", frequency)); err != nil {
		return none, err
	}
	rejection, err := curve.At(frequency)
	return rejection, argument.First(function, err)
}

// rejectionCurve checks the curve and makes the axis of the frequency the
// usual one.
func rejectionCurve(curve table.Table) (table.Table, error) {
	if err := curve.Expect("curve", "Hz", "dB"); err != nil {
		return curve, err
	}
	frequency := curve.Columns()[0]
	rejection, err := curve.Output()
	if err != nil {
		return curve, err
	}
	curve, err = curve.Log(frequency)
	if err != nil {
		return curve, err
	}
	least, most, err := curve.Ends(rejection)
	if err != nil {
		return curve, err
	}
	lowest, _, err := curve.Ends(frequency)
	if err != nil {
		return curve, err
	}
	first, err := curve.At(lowest)
	if err != nil {
		return curve, err
	}
	for _, err := range []error{
		checkRejection("the least "+rejection+" of curve", least),
		checkRejection("the most "+rejection+" of curve", most),
		argument.Gain.Positive("the first "+rejection+" of curve", first),
	} {
		if err != nil {
			return curve, err
		}
	}
	return curve, nil
}

func checkRejection(name string, rejection units.Quantity) error {
	if err := argument.Gain.Signed(name, rejection); err != nil {
		return err
	}
	if err := argument.AtLeast(name, rejection, "what a loop can add", leastRejection, "write rejection above zero where ripple is made smaller"); err != nil {
		return err
	}
	return argument.AtMost(name, rejection, "what can be measured", mostRejection, "check the formula it comes from")
}

// RejectionOfLoop returns the ripple rejection at a frequency of a regulator
// whose loop gain falls with one pole.
//
//	rejection = low − 20 dB · log₁₀ √(1 + (frequency/corner)²)
//
// Arguments: low, the rejection at low frequencies, dB, above zero; corner,
// the frequency at which 3 dB of it are gone, Hz, above zero; frequency, Hz,
// above zero. Result: a ratio in dB, not below 0 dB. It is an error outside
// of that, and where nothing is left of the rejection: beyond that the pass
// element and the output capacitor decide.
//
//	r, err := linear.RejectionOfLoop(60dB, 1kHz, 100kHz)   // 20 dB
//
// Holds below the frequency at which the loop's gain is one; Rejection takes
// the curve of the data sheet, where there is one.
//
// Source: gain of an integrating amplifier (any textbook).
//
// Caution: as Rejection.
func RejectionOfLoop(low, corner, frequency units.Quantity) (units.Quantity, error) {
	const function = "linear.RejectionOfLoop"
	if err := argument.First(function,
		argument.Gain.Positive("low", low),
		argument.Frequency.Positive("corner", corner),
		argument.Frequency.Positive("frequency", frequency),
	); err != nil {
		return none, err
	}
	fall := units.Sqrt(units.Number(1).Add(units.Pow(frequency.Div(corner), 2)))
	rejection := low.Sub(units.VoltageGain(fall))
	if err := argument.First(function,
		argument.AtMost("low", low, "what can be measured", mostRejection, "check the formula it comes from"),
		argument.AtLeast("what is left of low", rejection, "nothing", units.VoltageGain(units.Number(1)), "the loop does nothing at this frequency; filter in front of the regulator"),
	); err != nil {
		return none, err
	}
	return rejection, nil
}

// Ripple returns the ripple at the output.
//
//	output = input/10^(rejection/20 dB)
//
// Arguments: input, the ripple at the input, V, not below zero, peak to peak
// or RMS; rejection at its frequency, dB, from −60 dB to 200 dB. Result: a
// voltage, peak to peak or RMS as input was. It is an error outside of that.
//
//	V, err := linear.Ripple(50mV, 45dB)   // 281.2 µV
//
// Holds for one frequency. Of ripple that is no sine the harmonics come
// through more, because rejection falls with frequency.
//
// Source: definition of the ripple rejection (any regulator's data sheet).
//
// Caution: as Rejection.
func Ripple(input, rejection units.Quantity) (units.Quantity, error) {
	if err := argument.First("linear.Ripple",
		argument.Voltage.NotNegative("input", input),
		checkRejection("rejection", rejection),
	); err != nil {
		return none, err
	}
	output := input.Div(units.VoltageRatio(rejection))
	return output, nil
}

// NeededRejection returns the ripple rejection that makes a ripple as small
// as it has to be.
//
//	rejection = 20 dB · log₁₀(input/allowed)
//
// Arguments: input, the ripple at the input, and allowed, that at the output,
// V, above zero, both peak to peak or both RMS. Result: a ratio in dB; below
// zero where the input is quiet enough. It is an error outside of that.
//
//	r, err := linear.NeededRejection(50mV, 1mV)   // 33.98 dB
//
// Where it holds, source and cautions: as Ripple.
func NeededRejection(input, allowed units.Quantity) (units.Quantity, error) {
	if err := argument.First("linear.NeededRejection",
		argument.Voltage.Positive("input", input),
		argument.Voltage.Positive("allowed", allowed),
	); err != nil {
		return none, err
	}
	rejection := units.VoltageGain(input.Div(allowed))
	return rejection, nil
}
