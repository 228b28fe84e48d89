package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// RightHalfPlaneZeroInputs are the arguments of RightHalfPlaneZero.
type RightHalfPlaneZeroInputs struct {
	Stage          Stage          // Load above zero
	ZeroShare      units.Quantity // of the zero that the crossover may have, no unit; left out: a fifth
	FrequencyShare units.Quantity // of the switching frequency that it may have, no unit; left out: a tenth
}

// RightHalfPlaneZeroResult is what RightHalfPlaneZero finds.
type RightHalfPlaneZeroResult struct {
	LoadResistance units.Quantity // Ω
	Above          units.Quantity // zero if the coupling capacitor holds its voltage at it, Hz; an inverting stage has only this
	Below          units.Quantity // zero if the coupling capacitor follows, Hz; without one as Above
	Zero           units.Quantity // the lower of the two, Hz
	OfZero         units.Quantity // crossover that the zero allows, Hz
	OfFrequency    units.Quantity // crossover that the switching frequency allows, Hz
	Crossover      units.Quantity // highest sensible, the lower of the two, Hz
}

// RightHalfPlaneZero finds the frequency of the zero in the right half plane,
// and the highest sensible crossover of the control loop: with a longer duty
// the output first falls, because its current comes in the off-time.
//
//	LoadResistance = size/load, where size is that of the output
//	Above          = OnVoltage/(2π · together · Current)
//	Below          = Above; of a SEPIC that is not Coupled OnVoltage/(2π · Duty · first · Current)
//	Zero           = lower of the two
//	OfZero         = Zero · zero share
//	OfFrequency    = frequency · frequency share
//	Crossover      = least of OfZero and OfFrequency
//
// with OnVoltage, Duty and Current as function Duty finds them, together as
// Currents does. Without drops Above is LoadResistance · (1 − Duty)²/(2π ·
// Duty · together), the form of the textbooks. It holds far above
// CouplingResonance, Below far below it.
//
// Arguments: Stage, of which Load, A, is above zero here; the shares above
// zero and below 100 %. It is an error outside of that.
//
//	z, err := inverting.RightHalfPlaneZero(inverting.RightHalfPlaneZeroInputs{Stage: stage})
//	Require(fc <= z.Crossover, "the loop is slow enough")
//
// Give Input as a range and the largest load: the zero is lowest at the
// lowest input. Common practice puts the crossover at a third to a fifth of
// it.
//
// Holds in continuous conduction; below its boundary the zero lies far above,
// near the switching frequency, and Zero is on the safe side.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics, table
// 8.2 (buck-boost), from memory; Below from the average of a SEPIC's equations
// with the mean current of the coupling capacitor zero.
//
// Caution: a larger inductor lowers it: take the largest that a part can have.
// No compensation takes its phase back.
func RightHalfPlaneZero(in RightHalfPlaneZeroInputs) (RightHalfPlaneZeroResult, error) {
	const function = "inverting.RightHalfPlaneZero"
	one := units.Number(1)
	zeroShare, frequencyShare := units.Number(0.2), units.Number(0.1)
	if argument.Given(in.ZeroShare) {
		zeroShare = in.ZeroShare
	}
	if argument.Given(in.FrequencyShare) {
		frequencyShare = in.FrequencyShare
	}
	if err := argument.First(function,
		in.Stage.loaded(),
		argument.Share.Positive("ZeroShare", zeroShare),
		argument.Share.Positive("FrequencyShare", frequencyShare),
	); err != nil {
		return RightHalfPlaneZeroResult{}, err
	}
	if err := argument.First(function,
		argument.Under("ZeroShare", zeroShare, "the zero itself", one, "no loop crosses over there; write a share such as 20 %"),
		argument.Under("FrequencyShare", frequencyShare, "the switching frequency itself", one, "no loop crosses over there; write a share such as 10 %"),
	); err != nil {
		return RightHalfPlaneZeroResult{}, err
	}
	above, below := in.Stage.zeros()
	lower := units.Min(above, below)
	ofZero := lower.Mul(zeroShare)
	ofFrequency := in.Stage.Frequency.Mul(frequencyShare)
	return RightHalfPlaneZeroResult{
		LoadResistance: in.Stage.size().Div(in.Stage.Load),
		Above:          above,
		Below:          below,
		Zero:           lower,
		OfZero:         ofZero,
		OfFrequency:    ofFrequency,
		Crossover:      units.Min(ofZero, ofFrequency),
	}, nil
}

// zeros are those in the right half plane of a stage with a load, above and
// below the resonance of a coupling capacitor.
func (s Stage) zeros() (above, below units.Quantity) {
	d, twoPi := s.duty(), units.Number(2).Mul(units.Pi)
	speed := d.OnVoltage.Div(twoPi.Mul(d.Current))
	above = speed.Div(s.together())
	below = above
	if s.SEPIC && !s.Coupled {
		below = speed.Div(d.Duty.Mul(s.Inductance))
	}
	return above, below
}

// zero is the lower of both.
func (s Stage) zero() units.Quantity {
	above, below := s.zeros()
	return units.Min(above, below)
}
