package loop

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

// BodeResult is what Bode finds.
type BodeResult struct {
	Gain  plot.Figure // of plant, amplifier and loop over frequency, dB
	Phase plot.Figure // of them, °
}

// Bode draws gain and phase of a loop and its two parts over frequency.
//
//	xᵢ = from · (to/from)^(i/80), i = 0 … 80
//	yᵢ = gain or phase at xᵢ, as Response finds them
//
// Arguments: as Margins; from and to, Hz, exact, to above from. It is an error
// outside of that.
//
//	b, err := loop.Bode(plant, amplifier, 100Hz, 200kHz)
//	b.Gain
//
// Values with spread make bands. Marked are a gain of 1 and, in the figure of
// the phase, −180°.
//
// Where it holds and source: as Margins. Caution: half the switching
// frequency is the most that to should be; a resonance narrower than a point
// to the next may lie between two of them.
func Bode(plant Plant, amplifier Amplifier, from, to units.Quantity) (BodeResult, error) {
	const function, steps = "loop.Bode", 80
	if err := argument.First(function,
		plant.check(),
		amplifier.check(),
		argument.Frequency.Positive("from", from),
		argument.Frequency.Positive("to", to),
	); err != nil {
		return BodeResult{}, err
	}
	if err := argument.First(function, argument.Above("to", to, "from", from, "the picture goes from the lower to the higher frequency")); err != nil {
		return BodeResult{}, err
	}
	var x []units.Quantity
	var gains, phases [3][]units.Quantity
	for i := range steps + 1 {
		frequency := from.Mul(units.Pow(to.Div(from), float64(i)/steps))
		r, err := Response(plant, amplifier, frequency)
		if err != nil {
			return BodeResult{}, argument.First(function, err)
		}
		x = append(x, frequency)
		for k, y := range []units.Quantity{r.Gain, r.PlantGain, r.AmplifierGain} {
			gains[k] = append(gains[k], y)
		}
		for k, y := range []units.Quantity{r.Phase, r.PlantPhase, r.AmplifierPhase} {
			phases[k] = append(phases[k], y)
		}
	}
	gain := plot.Figure{Title: "gain of the loop", XName: "frequency", YName: "gain", LogX: true, Marks: []plot.Mark{{Name: "gain of 1", Value: unity}}}
	phase := plot.Figure{Title: "phase of the loop", XName: "frequency", YName: "phase", LogX: true, Marks: []plot.Mark{{Name: "half a turn", Value: units.In(halfTurn.Neg(), "deg")}}}
	for k, name := range []string{"loop", "plant", "amplifier"} {
		gain.Series = append(gain.Series, plot.Series{Name: name, X: x, Y: gains[k]})
		phase.Series = append(phase.Series, plot.Series{Name: name, X: x, Y: phases[k]})
	}
	// plot.New refuses a frequency that differs from board to board.
	gain, err := plot.New(gain)
	if err != nil {
		return BodeResult{}, argument.First(function, err)
	}
	phase, err = plot.New(phase)
	return BodeResult{Gain: gain, Phase: phase}, argument.First(function, err)
}
