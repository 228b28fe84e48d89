package ripple

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// RectifierWithSource computes a rectifier with a reservoir capacitor at a
// source that has resistance, as every transformer and wire has: the pulses
// of current become lower and longer, and the output falls with the load.
//
//	source ──▷|── resistance ──┬────────┬── output
//	                       reservoir  load
//	source ────────────────────┴────────┴── 0 V
//
//	while the diodes conduct: pulse = (Amplitude · cos(angle) − Drop − output)/resistance
//	                          capacitance · d(output)/dt = pulse − load's current
//	while they do not:        capacitance · d(output)/dt = − load's current
//
// They conduct from −Start, where the source rises above the output, to End,
// where the pulse has come down to zero. The function finds the Start at
// which a period ends as it began, case by case, and integrates the pulse to
// all digits that count. UsualRipple and UsualPulsePeak are, for comparison,
// those of the approximation without resistance.
//
// Arguments: as Rectifier, and Resistance, Ω, above zero: of the winding seen
// from the output (with that of the other winding times the square of the
// turns ratio), wires and diodes together. It is an error outside of that,
// where the load is more than the source carries, and where 2π · frequency ·
// resistance · capacitance is below 0.005: then take Rectifier.
//
//	r, err := ripple.RectifierWithSource(ripple.RectifierInputs{
//		Arrangement: ripple.Bridge, Input: 27V, Frequency: 50Hz, Diode: 0.9V, Resistance: 2.5Ω,
//		Capacitance: 4.7mF, LoadPower: 12W,
//	})
//	// r.CapacitorRMS for the reservoir's life, r.SourceRMS for the transformer
//
// Holds in the settled state, without the inductance of the source, which
// makes the pulses lower and longer still.
//
// Source: Kirchhoff's laws. O. H. Schade, Analysis of rectifier operation,
// Proc. IRE 1943, draws the same solutions as curves (from memory).
//
// Caution: a transformer's resistance from its regulation: (voltage without
// load − rated voltage)/rated current, which is its RMS current, above
// LoadCurrent by half and more. Otherwise as Rectifier.
func RectifierWithSource(in RectifierInputs) (RectifierResult, error) {
	const function = "ripple.RectifierWithSource"
	s, err := in.shape()
	if err := argument.First(function, err, argument.Resistance.Positive("Resistance", in.Resistance)); err != nil {
		return RectifierResult{}, err
	}
	lag := s.speed.Mul(in.Resistance).Mul(in.Capacitance)
	if err := argument.First(function,
		argument.AtLeast("2π · Frequency · Resistance · Capacitance", lag, "a two-hundredth", units.Number(0.005), "so little resistance does not shape the pulse; take Rectifier"),
		argument.AtMost("2π · Frequency · Resistance · Capacitance", lag, "a million", units.Number(1e6), "the reservoir does not settle; lower Resistance or Capacitance"),
	); err != nil {
		return RectifierResult{}, err
	}
	// Voltages in amplitudes, currents in what the reservoir takes of the
	// whole source, times as angles.
	rate := s.speed.Mul(in.Capacitance).Mul(s.amplitude)
	taken := s.load.current(s.amplitude).Div(rate)
	if s.load.kind == ofCurrent {
		area := s.amplitude.Mul(units.Sin(s.crossing)).Sub(s.drop.Mul(s.crossing)).Mul(units.Number(2))
		short := area.Div(s.period).Div(in.Resistance)
		if err := argument.First(function, argument.Under("LoadCurrent", s.load.size, "what the source gives into a short circuit", short, "lower the load or Resistance, or raise Input")); err != nil {
			return RectifierResult{}, err
		}
	}
	solved := map[[3]float64]*pulse{}
	solve := func(x []float64) *pulse {
		key := [3]float64{x[0], x[1], x[2]}
		p, ok := solved[key]
		if !ok {
			p = &pulse{kind: s.load.kind, share: x[0], lag: x[1], taken: x[2], period: in.Arrangement.period()}
			p.settle()
			solved[key] = p
		}
		return p
	}
	where, at, ok := units.Everywhere(func(x []float64) bool { return solve(x).settled }, s.share, lag, taken, s.load.size, in.Resistance)
	if !ok {
		if where != "" {
			where = " " + where
		}
		return RectifierResult{}, fmt.Errorf("%s: the source does not carry a load of %v through %v%s; the reservoir runs empty: lower the load or Resistance, or raise Input or Capacitance", function, at[3], at[4], where)
	}
	find := func(name string, field func(p *pulse) float64) units.Quantity {
		return units.Lanewise(name, s.share, func(x []float64) float64 { return field(solve(x)) }, s.share, lag, taken)
	}
	return s.result(in, RectifierResult{
		Start:        find("the start", func(p *pulse) float64 { return p.start }),
		End:          find("the end", func(p *pulse) float64 { return p.end }),
		Peak:         s.amplitude.Mul(find("the peak", func(p *pulse) float64 { return p.peak })),
		Valley:       s.amplitude.Mul(find("the valley", func(p *pulse) float64 { return p.valley })),
		Ripple:       s.amplitude.Mul(find("the ripple", func(p *pulse) float64 { return p.ripple })),
		Mean:         s.amplitude.Mul(find("the mean", func(p *pulse) float64 { return p.mean })),
		LoadCurrent:  rate.Mul(find("the load's current", func(p *pulse) float64 { return p.average })),
		PulsePeak:    rate.Mul(find("the peak current", func(p *pulse) float64 { return p.highest })),
		PulseRMS:     rate.Mul(find("the pulse's RMS value", func(p *pulse) float64 { return p.rms })),
		CapacitorRMS: rate.Mul(find("the reservoir's RMS current", func(p *pulse) float64 { return p.reservoir })),
	}), nil
}
