package loop

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ResponseResult is what Response finds.
type ResponseResult struct {
	PlantGain      units.Quantity // dB
	PlantPhase     units.Quantity // °
	AmplifierGain  units.Quantity // dB
	AmplifierPhase units.Quantity // °
	Gain           units.Quantity // of the loop, dB
	Phase          units.Quantity // of the loop, °; −180° and a gain of 1 together oscillate
}

// Response computes gain and phase of a loop and its two parts at one
// frequency.
//
//	Gain  = PlantGain + AmplifierGain
//	Phase = PlantPhase + AmplifierPhase
//
// with the gains and phases of plant(s) and amplifier(s), s = 2πj · frequency,
// as the comments of Plant and Amplifier give them.
//
// Arguments: as Margins, and frequency, Hz, above zero. It is an error outside
// of that.
//
//	r, err := loop.Response(plant, amplifier, 20kHz)
//
// Where it holds, source and cautions: as Margins.
func Response(plant Plant, amplifier Amplifier, frequency units.Quantity) (ResponseResult, error) {
	if err := argument.First("loop.Response", plant.check(), amplifier.check(), argument.Frequency.Positive("frequency", frequency)); err != nil {
		return ResponseResult{}, err
	}
	plantGain, plantPhase := plant.at(frequency)
	amplifierGain, amplifierPhase := amplifier.at(frequency)
	return ResponseResult{
		PlantGain:      plantGain,
		PlantPhase:     plantPhase,
		AmplifierGain:  amplifierGain,
		AmplifierPhase: amplifierPhase,
		Gain:           plantGain.Add(amplifierGain),
		Phase:          plantPhase.Add(amplifierPhase),
	}, nil
}

// at are gain and phase of the plant at a frequency. What only scales it does
// not turn it, and is left out of the phase so that its spread does not come in.
func (p Plant) at(frequency units.Quantity) (gain, phase units.Quantity) {
	poles, zeros := len(p.Poles), len(p.Zeros)
	at := func(x []float64) response { return plantOf(x[1:], poles, zeros).plant(x[0]) }
	gain = units.Lanewise("the gain of the plant", unity, func(x []float64) float64 { return at(x).decibels() }, prepend(frequency, p.values())...)
	phase = units.Lanewise("the phase of the plant", radian, func(x []float64) float64 { return at(x).phase }, prepend(frequency, p.unscaled().values())...)
	return gain, units.In(phase, "deg")
}

// at are, likewise, gain and phase of the amplifier.
func (a Amplifier) at(frequency units.Quantity) (gain, phase units.Quantity) {
	at := func(x []float64) response { return circuit{}.with(x[1:]).amplifier(x[0]) }
	gain = units.Lanewise("the gain of the amplifier", unity, func(x []float64) float64 { return at(x).decibels() }, prepend(frequency, a.values())...)
	phase = units.Lanewise("the phase of the amplifier", radian, func(x []float64) float64 { return at(x).phase }, prepend(frequency, a.unscaled().values())...)
	return gain, units.In(phase, "deg")
}

func prepend(x units.Quantity, list []units.Quantity) []units.Quantity {
	return append([]units.Quantity{x}, list...)
}

// unscaled is a plant that turns as p does, with a gain of 1.
func (p Plant) unscaled() Plant { p.Gain = units.Number(1); return p }

// unscaled is, likewise, an amplifier with a transconductance of 1 S, if any.
func (a Amplifier) unscaled() Amplifier {
	if argument.Given(a.Transconductance) {
		a.Transconductance = siemens
	}
	return a
}
