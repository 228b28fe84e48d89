package stepup

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// RightHalfPlaneZeroInputs are the arguments of RightHalfPlaneZero.
type RightHalfPlaneZeroInputs struct {
	Stage          Stage          // Load above zero
	ZeroShare      units.Quantity // of the zero that the crossover may have, no unit; left out: a third
	FrequencyShare units.Quantity // of the switching frequency that it may have, no unit; left out: a tenth
}

// RightHalfPlaneZeroResult is what RightHalfPlaneZero finds.
type RightHalfPlaneZeroResult struct {
	LoadResistance units.Quantity // Ω
	Zero           units.Quantity // Hz
	OfZero         units.Quantity // crossover that the zero allows, Hz
	OfFrequency    units.Quantity // crossover that the switching frequency allows, Hz
	Crossover      units.Quantity // highest sensible, the lower of the two, Hz
}

// RightHalfPlaneZero finds the frequency of the zero in the right half plane,
// and the highest sensible crossover of the control loop.
//
//	LoadResistance = output/load
//	Zero           = OnVoltage/(2π · inductance · Mean)
//	OfZero         = Zero · zero share
//	OfFrequency    = frequency · frequency share
//	Crossover      = least of OfZero and OfFrequency
//
// with OnVoltage and Mean as function Duty finds them. Without drops Zero is
// LoadResistance · (1 − Duty)²/(2π · inductance), the form of the textbooks.
//
// Arguments: Stage, of which Load, A, and Inductance, H, are above zero here;
// the shares above zero and below 100 %. It is an error outside of that.
//
//	z, err := stepup.RightHalfPlaneZero(stepup.RightHalfPlaneZeroInputs{Stage: stage})
//
// A longer duty first takes output from the load, before the inductor's
// current has risen: the output moves the wrong way for a time, which adds lag
// where a zero should take it away, and no compensation can undo it. Give
// Input and Load as ranges: the zero is lowest at the lowest input and the
// largest load.
//
// Holds in continuous conduction; below its boundary the zero lies far above,
// near the switching frequency, and Zero is on the safe side.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics, chapter
// 8, from memory; the third of the zero is in the LM5176's data sheet (section
// 8.2.2.14), a tenth of the frequency is common practice.
//
// Caution: take the largest inductance that a part can have.
func RightHalfPlaneZero(in RightHalfPlaneZeroInputs) (RightHalfPlaneZeroResult, error) {
	const function = "stepup.RightHalfPlaneZero"
	one := units.Number(1)
	zeroShare, frequencyShare := one.Div(units.Number(3)), units.Number(0.1)
	if argument.Given(in.ZeroShare) {
		zeroShare = in.ZeroShare
	}
	if argument.Given(in.FrequencyShare) {
		frequencyShare = in.FrequencyShare
	}
	if err := argument.First(function,
		in.Stage.withInductor(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Share.Positive("ZeroShare", zeroShare),
		argument.Share.Positive("FrequencyShare", frequencyShare),
	); err != nil {
		return RightHalfPlaneZeroResult{}, err
	}
	if err := argument.First(function,
		argument.Under("ZeroShare", zeroShare, "the zero itself", one, "no loop crosses over there; write a share such as 30 %"),
		argument.Under("FrequencyShare", frequencyShare, "the switching frequency itself", one, "no loop crosses over there; write a share such as 10 %"),
	); err != nil {
		return RightHalfPlaneZeroResult{}, err
	}
	zero := in.Stage.zero()
	ofZero := zero.Mul(zeroShare)
	ofFrequency := in.Stage.Frequency.Mul(frequencyShare)
	return RightHalfPlaneZeroResult{
		LoadResistance: in.Stage.Output.Div(in.Stage.Load),
		Zero:           zero,
		OfZero:         ofZero,
		OfFrequency:    ofFrequency,
		Crossover:      units.Min(ofZero, ofFrequency),
	}, nil
}

// zero is that in the right half plane, of a stage with a load.
func (s Stage) zero() units.Quantity {
	d := s.duty()
	twoPi := units.Number(2).Mul(units.Pi)
	return d.OnVoltage.Div(twoPi.Mul(s.Inductance).Mul(d.Mean))
}
