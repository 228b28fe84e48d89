package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PulseInputs are the arguments of Pulse.
type PulseInputs struct {
	Network   Foster         // from the junction to where Reference is
	Reference units.Quantity // temperature there, and of the junction before the pulse, °C
	Power     units.Quantity // during the pulse, W
	Duration  units.Quantity // of the pulse, s
	After     units.Quantity // time from its end at which Later is asked for, s; left out: its end
}

// PulseResult is what Pulse finds.
type PulseResult struct {
	Impedance units.Quantity // Zth at the pulse's end, K/W
	Rise      units.Quantity // at its end, K
	Peak      units.Quantity // temperature at its end, °C
	Later     units.Quantity // temperature After it, °C
}

// Pulse computes what a single pulse of constant power heats, and what is
// left of that some time later.
//
//	Impedance = Zth(duration)
//	Rise      = power · Impedance
//	Peak      = reference + Rise
//	Later     = reference + power · (Zth(duration + after) − Zth(after))
//
// with Zth as Impedance finds it. A step is a pulse that has not ended.
//
// Arguments: Network, see Foster; Reference, °C; Power, W, Duration and
// After, s, not below zero. It is an error outside of that.
//
//	p, err := thermal.Pulse(thermal.PulseInputs{Network: network, Reference: 50°C, Power: 40W, Duration: 10ms})
//
// Holds for a pulse that starts from rest; pulses one after the other are
// Pulses.
//
// Source: superposition of a step up and a step down; JEDEC JESD51-14.
//
// Caution: a power that falls or rises during the pulse may be cut into
// rectangles with Pulses; the mean of a short triangle heats less at its end
// than a rectangle of that mean if it falls, more if it rises.
func Pulse(in PulseInputs) (PulseResult, error) {
	const function = "thermal.Pulse"
	stages, err := in.Network.check(function)
	if err != nil {
		return PulseResult{}, err
	}
	after := argument.Time.OrZero(in.After)
	if err := argument.First(function,
		argument.Temperature("Reference", in.Reference),
		argument.Power.NotNegative("Power", in.Power),
		argument.Time.NotNegative("Duration", in.Duration),
		argument.Time.NotNegative("After", after),
	); err != nil {
		return PulseResult{}, err
	}
	impedance := impedanceOf(stages, in.Duration)
	rise := in.Power.Mul(impedance)
	later := argument.ThermalResistance.OrZero(none)
	for _, s := range stages {
		later = later.Add(s.resistance.Mul(reached(in.Duration, s.timeConstant)).Mul(left(after, s.timeConstant)))
	}
	return PulseResult{
		Impedance: impedance,
		Rise:      rise,
		Peak:      in.Reference.Add(rise),
		Later:     in.Reference.Add(in.Power.Mul(later)),
	}, nil
}

// TimedPulse is one pulse of a list.
type TimedPulse struct {
	Start    units.Quantity // s
	Duration units.Quantity // s
	Power    units.Quantity // W
}

// PulsesInputs are the arguments of Pulses.
type PulsesInputs struct {
	Network   Foster           // from the junction to where Reference is
	Reference units.Quantity   // temperature there, and of the junction before all pulses, °C
	Pulses    []TimedPulse     // in any order; those that overlap add
	Times     []units.Quantity // at which the temperature is asked for besides, s; may be left out
}

// Instant is the temperature at a time.
type Instant struct {
	Time        units.Quantity // s
	Temperature units.Quantity // °C
}

// PulsesResult is what Pulses finds.
type PulsesResult struct {
	Starts []Instant      // as each pulse starts, in their order
	Ends   []Instant      // as each pulse ends, in their order
	Asked  []Instant      // at Times
	Peak   units.Quantity // highest of all these, °C
	Energy units.Quantity // of all pulses together, J
}

// Pulses computes the temperature of a junction in the course of any list of
// pulses.
//
//	temperature = reference + sum over the pulses of power · (Zth(time − start) − Zth(time − start − duration))
//
// where Zth of a time not yet come is 0.
//
// Arguments: Network, see Foster; Reference, °C; of each pulse Start, s, of
// either sign, Duration, s, and Power, W, not below zero; Times, s. It is an
// error outside of that.
//
//	p, err := thermal.Pulses(thermal.PulsesInputs{Network: network, Reference: 50°C, Pulses: []thermal.TimedPulse{
//		{0s, 20ms, 30W}, {20ms, 1s, 2W},   // pull in, then hold
//	}})
//
// Peak is that of starts, ends and Times. The temperature of a single pulse,
// and of pulses of one power, is highest at an end; between them it can only
// be higher where a weak pulse comes long after a strong one: ask at Times then.
//
// Where it holds, source and cautions: as Pulse; superposition of steps.
func Pulses(in PulsesInputs) (PulsesResult, error) {
	const function = "thermal.Pulses"
	stages, err := in.Network.check(function)
	if err != nil {
		return PulsesResult{}, err
	}
	if err := argument.First(function, argument.Temperature("Reference", in.Reference)); err != nil {
		return PulsesResult{}, err
	}
	if len(in.Pulses) == 0 {
		return PulsesResult{}, fmt.Errorf("%s: Pulses is empty: write start, duration and power of each pulse", function)
	}
	for i, p := range in.Pulses {
		name := fmt.Sprintf("of pulse %d", i+1)
		if err := argument.First(function,
			argument.Time.Signed("the start "+name, argument.Time.OrZero(p.Start)),
			argument.Time.NotNegative("the duration "+name, p.Duration),
			argument.Power.NotNegative("the power "+name, p.Power),
		); err != nil {
			return PulsesResult{}, err
		}
	}
	for i, t := range in.Times {
		if err := argument.First(function, argument.Time.Signed(fmt.Sprintf("time %d", i+1), t)); err != nil {
			return PulsesResult{}, err
		}
	}
	r := PulsesResult{Peak: in.Reference}
	at := func(time units.Quantity) Instant {
		temperature := in.Reference.Add(riseAt(stages, in.Pulses, time))
		r.Peak = units.Max(r.Peak, temperature)
		return Instant{Time: time, Temperature: temperature}
	}
	for i, p := range in.Pulses {
		start := argument.Time.OrZero(p.Start)
		energy := p.Power.Mul(p.Duration)
		r.Starts = append(r.Starts, at(start))
		r.Ends = append(r.Ends, at(start.Add(p.Duration)))
		if i > 0 {
			energy = energy.Add(r.Energy)
		}
		r.Energy = energy
	}
	for _, t := range in.Times {
		r.Asked = append(r.Asked, at(t))
	}
	return r, nil
}

// riseAt adds up what is there of all pulses at a time.
func riseAt(stages []fosterStage, pulses []TimedPulse, time units.Quantity) units.Quantity {
	total := argument.Difference.OrZero(none)
	zero := argument.Time.OrZero(none)
	for _, p := range pulses {
		since := units.Max(time.Sub(argument.Time.OrZero(p.Start)), zero)
		heated := units.Min(since, p.Duration)
		cooled := since.Sub(heated)
		for _, s := range stages {
			total = total.Add(p.Power.Mul(s.resistance).Mul(reached(heated, s.timeConstant)).Mul(left(cooled, s.timeConstant)))
		}
	}
	return total
}
