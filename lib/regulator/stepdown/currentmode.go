package stepdown

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// CurrentModeInputs are the arguments of CurrentMode.
type CurrentModeInputs struct {
	Stage       Stage          // Load is a resistance that takes this current
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	PowerStage  units.Quantity // inductor current per control voltage, A/V
	Slope       units.Quantity // of the compensation ramp, as a current, A/s; left out: none
	Delay       units.Quantity // of comparator and driver, s; left out: none
}

// CurrentModeResult is what CurrentMode finds.
type CurrentModeResult struct {
	LoadResistance  units.Quantity // Ω
	Conduction      units.Quantity // share of a period in which current flows, no unit; 1 if continuous
	SlopeRatio      units.Quantity // of current and ramp together over the current alone, no unit
	LeastSlope      units.Quantity // at which the current begins to alternate, or the output to run away, A/s
	Gain            units.Quantity // output per control voltage at low frequency, no unit
	Pole            units.Quantity // of load and output capacitor, Hz
	ESRZero         units.Quantity // Hz; left out without ESR
	SamplingQuality units.Quantity // of the pair at half the switching frequency, no unit
	Plant           loop.Plant     // for package loop
}

// CurrentMode finds what the control voltage does to the output where it sets
// the peak of the inductor's current.
//
//	LoadResistance  = output/load
//	SlopeRatio      = 1 + slope/OnSlope
//	excess          = SlopeRatio · (1 − Duty) − 0.5
//	LeastSlope      = (OffSlope − OnSlope)/2, or 0
//	conductance     = excess/(inductance · frequency)
//	resistance      = LoadResistance ∥ 1/conductance
//	Gain            = power stage · resistance
//	Pole            = 1/(2π · (resistance + ESR) · capacitance)
//	ESRZero         = 1/(2π · ESR · capacitance)
//	SamplingQuality = 1/(π · excess)
//
// and below the boundary of conduction, where the current rests and has no
// period before to alternate with,
//
//	conductance     = load/OffVoltage + load/OnVoltage · (1 − 2/SlopeRatio)
//	LeastSlope      = OnSlope · (2/(1 + OnVoltage/output + OnVoltage/OffVoltage) − 1), or 0
//	Gain            = power stage · 2 · load/(SlopeRatio · Peak) · resistance
//	SamplingQuality = 1
//
// with Duty and the voltages as function Duty finds them, slopes, Peak and
// Conduction as Currents does.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F, and
// PowerStage, A/V, above zero; ESR, Ω, Slope, A/s, and Delay, s, not below
// zero. It is an error outside of that, and where Slope is not above the
// least: in continuous conduction with a duty above a half the current then
// alternates from period to period, below the boundary with a duty above two
// thirds the output runs away.
//
//	p, err := stepdown.CurrentMode(stepdown.CurrentModeInputs{
//		Stage: stage, Capacitance: 110µF, ESR: 1mΩ, PowerStage: 12A/V, Slope: 0.25A/µs,
//	})
//	c, err := loop.TypeII(loop.DesignInputs{Plant: p.Plant, Amplifier: amplifier, Crossover: 25kHz, PhaseMargin: 65deg})
//
// A slope of half the falling one (OffSlope/2) keeps the current from
// alternating at any duty; one as steep as it makes the pair's quality 2/π at
// any input. Many regulators have a slope inside, which the data sheet gives, or
// does not.
//
// Holds below half the switching frequency, for a load that is a resistance
// and an output whose ripple is small beside what the control voltage sets.
//
// Source: R. B. Ridley, A new, continuous-time model for current-mode control,
// IEEE Transactions on Power Electronics 6 (1991) p. 271, from memory; below
// the boundary the mean of the triangle of current, derived.
//
// Caution: the gain of the current sensing has a tolerance of 20 % and more.
// Below the boundary the pair stands for what the current's triangle delays: a
// simulation has up to 9° more phase at a tenth of the switching frequency.
func CurrentMode(in CurrentModeInputs) (CurrentModeResult, error) {
	const function = "stepdown.CurrentMode"
	slope := argument.CurrentSlope.OrZero(in.Slope)
	if err := argument.First(function,
		plantStage(in.Stage, in.Capacitance, in.ESR, in.Delay),
		argument.Transconductance.Positive("PowerStage", in.PowerStage),
		argument.CurrentSlope.NotNegative("Slope", slope),
	); err != nil {
		return CurrentModeResult{}, err
	}
	s := in.Stage
	load, frequency, inductance, capacitance := s.Load, s.Frequency, s.Inductance, in.Capacitance
	esr := argument.Resistance.OrZero(in.ESR)
	one, two, half, turn := units.Number(1), units.Number(2), units.Number(0.5), units.Number(2).Mul(units.Pi)
	d, i := s.duty(), s.currents()
	loadResistance := s.Output.Div(load)
	slopeRatio := one.Add(slope.Div(i.OnSlope))
	// Continuous conduction.
	fullLeast := i.OffSlope.Sub(i.OnSlope).Mul(half)
	excess := slopeRatio.Mul(one.Sub(d.Duty)).Sub(half)
	fullConductance := excess.Div(inductance.Mul(frequency))
	// Below the boundary.
	spare := d.OnVoltage.Div(s.Output).Add(d.OnVoltage.Div(d.OffVoltage))
	restLeast := i.OnSlope.Mul(two.Div(one.Add(spare)).Sub(one))
	restConductance := load.Div(d.OffVoltage).Add(load.Div(d.OnVoltage).Mul(one.Sub(two.Div(slopeRatio))))

	least := units.Where(i.Conduction, one, restLeast, fullLeast)
	conductance := units.Where(i.Conduction, one, restConductance, fullConductance)
	whole := one.Div(loadResistance).Add(conductance)
	if err := argument.First(function,
		argument.Above("Slope", slope, "the least at which the current is steady", least, "raise Slope or Inductance, or lower the duty"),
		// Rounding may leave nothing of a slope that is just above.
		argument.Share.Positive("the excess of Slope", units.Where(i.Conduction, one, one, excess)),
		argument.Transconductance.Positive("the conductance at the output", whole),
	); err != nil {
		return CurrentModeResult{}, err
	}
	resistance := one.Div(whole)
	share := units.Where(i.Conduction, one, two.Mul(load).Div(slopeRatio.Mul(i.Peak)), one)
	gain := in.PowerStage.Mul(share).Mul(resistance)
	pole := one.Div(turn.Mul(resistance.Add(esr)).Mul(capacitance))
	inverse := units.Where(i.Conduction, one, one, units.Pi.Mul(excess))
	r := CurrentModeResult{
		LoadResistance:  loadResistance,
		Conduction:      i.Conduction,
		SlopeRatio:      slopeRatio,
		LeastSlope:      units.Max(least, slope.Sub(slope)),
		Gain:            gain,
		Pole:            pole,
		SamplingQuality: one.Div(inverse),
	}
	r.Plant = loop.Plant{Gain: r.Gain, Frequency: frequency, Poles: []units.Quantity{r.Pole}, SamplingQuality: r.SamplingQuality, Delay: in.Delay}
	if argument.Given(in.ESR) {
		r.ESRZero = esrZero(esr, capacitance, frequency)
		r.Plant.Zeros = []units.Quantity{r.ESRZero}
	}
	return r, nil
}
