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
	of, parts := circuits(plant, amplifier)
	parts = append([]units.Quantity{frequency}, parts...)
	plantGain, plantPhase := gainAndPhase("the plant", func(x []float64) complex128 { return of(x[1:]).plant(x[0]) }, parts)
	amplifierGain, amplifierPhase := gainAndPhase("the amplifier", func(x []float64) complex128 { return of(x[1:]).amplifier(x[0]) }, parts)
	return ResponseResult{
		PlantGain:      plantGain,
		PlantPhase:     plantPhase,
		AmplifierGain:  amplifierGain,
		AmplifierPhase: amplifierPhase,
		Gain:           plantGain.Add(amplifierGain),
		Phase:          plantPhase.Add(amplifierPhase),
	}, nil
}

// gainAndPhase are those of a response, case by case.
func gainAndPhase(name string, response func(x []float64) complex128, parts []units.Quantity) (gain, phase units.Quantity) {
	unity := units.VoltageGain(units.Number(1))
	gain = units.Lanewise("the gain of "+name, unity, func(x []float64) float64 { return decibels(response(x)) }, parts...)
	phase = units.Lanewise("the phase of "+name, radian, func(x []float64) float64 { return imag(response(x)) }, parts...)
	return gain, units.In(phase, "deg")
}
