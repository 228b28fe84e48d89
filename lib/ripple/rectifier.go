package ripple

import (
	"fmt"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Arrangement is how the diodes of a rectifier stand: one of HalfWave,
// FullWave and Bridge.
type Arrangement struct {
	Name string
}

// The arrangements of a rectifier: one diode; a diode at each end of a winding
// with a tap in the middle; four diodes.
var (
	HalfWave = Arrangement{Name: "half wave"}
	FullWave = Arrangement{Name: "full wave"}
	Bridge   = Arrangement{Name: "bridge"}
)

// String returns the name of the arrangement.
func (a Arrangement) String() string { return a.Name }

// pulses is the number of charging pulses in a period of the source, inWay
// that of diodes in the way of one.
func (a Arrangement) pulses() float64 {
	if a == HalfWave {
		return 1
	}
	return 2
}

func (a Arrangement) period() float64 { return 2 * math.Pi / a.pulses() }

func (a Arrangement) inWay() float64 {
	if a == Bridge {
		return 2
	}
	return 1
}

func (a Arrangement) check() error {
	if a == HalfWave || a == FullWave || a == Bridge {
		return nil
	}
	return fmt.Errorf("Arrangement is not given, or is %q: write ripple.HalfWave, ripple.FullWave or ripple.Bridge", a.Name)
}

// RectifierInputs are the arguments of Rectifier and RectifierWithSource.
type RectifierInputs struct {
	Arrangement    Arrangement    // HalfWave, FullWave or Bridge
	Input          units.Quantity // RMS value of the source without load; of one half of a tapped winding; V
	Frequency      units.Quantity // of the source, Hz
	Diode          units.Quantity // forward voltage of one diode, V; left out: none
	Resistance     units.Quantity // of the source, Ω: RectifierWithSource only
	Capacitance    units.Quantity // of the reservoir, F
	LoadCurrent    units.Quantity // A, the same at any voltage; or
	LoadPower      units.Quantity // W, the same at any voltage; or
	LoadResistance units.Quantity // Ω
}

// RectifierResult is what Rectifier and RectifierWithSource find.
type RectifierResult struct {
	Amplitude        units.Quantity // peak of the source, V
	Drop             units.Quantity // of the diodes in the way, V
	Start            units.Quantity // of conduction before the source's peak, rad
	End              units.Quantity // of conduction after it, rad
	ConductionTime   units.Quantity // of one pulse, s
	Peak             units.Quantity // of the output, V
	Valley           units.Quantity // of the output, V
	Ripple           units.Quantity // of the output, peak to peak, V
	Mean             units.Quantity // of the output, V
	LoadCurrent      units.Quantity // mean, A
	PulsePeak        units.Quantity // of the charging current, and of a diode's, A
	PulseRMS         units.Quantity // of the charging current, A
	DiodeAverage     units.Quantity // current of one diode, A
	DiodeRMS         units.Quantity // current of one diode, A
	SourceRMS        units.Quantity // current of the winding, or of one half of a tapped one, A
	CapacitorRMS     units.Quantity // current of the reservoir, A
	Reverse          units.Quantity // voltage across a diode that blocks, without load, V
	DiodeLoss        units.Quantity // of all diodes together, W
	ResistanceLoss   units.Quantity // in Resistance, W
	UsualRipple      units.Quantity // by the usual approximation, V
	UsualRippleError units.Quantity // of it, of the ripple, no unit
	UsualPulsePeak   units.Quantity // by the usual approximation, A
}

// shape is what the arguments of a rectifier say before anything is solved.
type shape struct {
	amplitude, drop, share units.Quantity
	speed                  units.Quantity // angle in a time, 1/s
	period                 units.Quantity // angle from one pulse to the next
	crossing               units.Quantity // angle from the source's peak to where it falls below the drop
	load                   load
}

// shape checks the arguments, and refuses a source that is no higher than the
// diodes.
func (in RectifierInputs) shape() (shape, error) {
	diode := argument.Voltage.OrZero(in.Diode)
	feeds, err := loadOf(in.LoadCurrent, in.LoadPower, in.LoadResistance)
	for _, err := range []error{
		in.Arrangement.check(),
		argument.Voltage.Positive("Input", in.Input),
		argument.Frequency.Positive("Frequency", in.Frequency),
		argument.Voltage.NotNegative("Diode", diode),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		err,
	} {
		if err != nil {
			return shape{}, err
		}
	}
	one, two := units.Number(1), units.Number(2)
	amplitude := units.Sqrt(two).Mul(in.Input)
	drop := units.Number(in.Arrangement.inWay()).Mul(diode)
	if err := argument.Above("the peak of Input", amplitude, "the diodes in its way", drop, "no current flows; raise Input"); err != nil {
		return shape{}, err
	}
	share := drop.Div(amplitude)
	s := shape{
		amplitude: amplitude,
		drop:      drop,
		share:     share,
		speed:     two.Mul(units.Pi).Mul(in.Frequency),
		period:    two.Mul(units.Pi).Div(units.Number(in.Arrangement.pulses())),
		crossing:  two.Mul(units.Atan(units.Sqrt(one.Sub(share).Div(one.Add(share))))),
		load:      feeds,
	}
	if s.load.kind == ofResistance {
		turns := s.speed.Mul(s.load.size).Mul(in.Capacitance)
		if err := argument.AtLeast("2π · Frequency · LoadResistance · Capacitance", turns, "a fifth", units.Number(0.2), "so small a reservoir keeps nothing up; raise Capacitance, or lower the load"); err != nil {
			return shape{}, err
		}
	}
	usual, peak := s.usualRipple(in), s.peak()
	return s, argument.AtLeast("the ripple", usual, "a billionth of the output", peak.Mul(units.Number(1e-9)), "so light a load makes none that counts; write the load at its largest, or a smaller Capacitance")
}

func (s shape) peak() units.Quantity { return s.amplitude.Sub(s.drop) }

func (s shape) usualRipple(in RectifierInputs) units.Quantity {
	return s.load.current(s.peak()).Div(units.Number(in.Arrangement.pulses()).Mul(in.Frequency).Mul(in.Capacitance))
}

// Rectifier computes a rectifier with a reservoir capacitor at a stiff source,
// from the exact angles between which the diodes conduct, beside the usual
// approximation and its error.
//
//	source ──▷|──┬────────┬── output
//	          reservoir  load
//	source ──────┴────────┴── 0 V
//
//	Amplitude = √2 · input
//	Drop      = diode, twice in a bridge
//	End:    ω · capacitance · Amplitude · sin(End) = load's current at Amplitude · cos(End) − Drop
//	Start:  Amplitude · cos(Start) − Drop = the output, discharged by the load since End
//	Peak      = Amplitude − Drop
//	Valley    = Amplitude · cos(Start) − Drop
//	Ripple    = Peak − Valley
//	PulsePeak = ω · capacitance · Amplitude · sin(Start) + load's current at Valley
//	UsualRipple    = load's current at Peak/(pulses · frequency · capacitance)
//	UsualPulsePeak = load's current at Peak · (1 + 2π/pulses · √(2 · Amplitude/UsualRipple))
//
// with ω = 2π · frequency and one pulse in a period, or two but for HalfWave.
// Means and RMS values are integrals over a period; a diode carries every
// second pulse but in HalfWave. A resistive load below ω · R · C of about 1
// draws its largest pulse after Start, which PulsePeak then is.
//
// Arguments: Arrangement; Input, V, Frequency, Hz, and Capacitance, F, above
// zero; Diode, V, not below zero; one of LoadCurrent, A, LoadPower, W, and
// LoadResistance, Ω, above zero. It is an error outside of that, where the
// source's peak is not above Drop, where the load is more than the reservoir
// carries from one pulse to the next (for a resistance: where 2π · frequency ·
// R · C is below 0.2), and where it is so light that the
// ripple is below a billionth of the output.
//
//	r, err := ripple.Rectifier(ripple.RectifierInputs{
//		Arrangement: ripple.Bridge, Input: 24V ± 10%, Frequency: 50Hz, Diode: 0.9V,
//		Capacitance: 4.7mF ± 20%, LoadPower: 12W,
//	})
//	// r.Valley is what a regulator behind it has left
//
// Holds for a source without resistance, for which the pulse of current is
// highest and shortest: Ripple and Valley are then near the truth and a little
// too good, and the currents far above it. With the resistance of a real
// transformer use RectifierWithSource.
//
// Source: Kirchhoff's laws; the usual approximation is that of Sedra and
// Smith, Microelectronic Circuits, peak rectifier (from memory).
//
// Caution: a small transformer gives without load 10 % to 30 % more than is
// printed on it, and mains go up another 10 %: Input is that, and so is the
// reservoir's voltage. Behind mains everything before the isolation is
// dangerous to touch, the reservoir even after switching off (Bleed); the
// local code governs it, not this function. ESR adds its own step, PulsePeak
// times ESR at most.
func Rectifier(in RectifierInputs) (RectifierResult, error) {
	const function = "ripple.Rectifier"
	s, err := in.shape()
	if err == nil && argument.Given(in.Resistance) {
		err = fmt.Errorf("Resistance is %v, but this function is for a source without any: use RectifierWithSource", in.Resistance)
	}
	if err := argument.First(function, err); err != nil {
		return RectifierResult{}, err
	}
	end, err := s.end(in)
	if err := argument.First(function, err); err != nil {
		return RectifierResult{}, err
	}
	atEnd := s.below(end)
	voltage := s.peak().Sub(atEnd)
	gap := s.period.Sub(s.crossing).Sub(end).Div(s.speed)
	if lasting, ends := s.load.lasting(voltage, in.Capacitance); ends {
		if err := argument.First(function, argument.Above("the time in which the load empties the reservoir", lasting, "the time until the source charges it again", gap.Mul(units.Number(1+1e-6)), "raise Capacitance or Input, or lower the load")); err != nil {
			return RectifierResult{}, err
		}
	}
	discharge := func(start units.Quantity) units.Quantity { return s.period.Sub(start).Sub(end).Div(s.speed) }
	start := units.Solve("the start of conduction", none.Mul(end), s.crossing, func(start units.Quantity) units.Quantity {
		fallen := atEnd.Add(s.load.droop(voltage, in.Capacitance, discharge(start)))
		return fallen.Sub(s.below(start))
	})
	time := discharge(start)
	droop := s.load.droop(voltage, in.Capacitance, time)
	period := s.period.Div(s.speed)

	// The pulse: the capacitor's current follows the source, the load adds to it.
	rate := s.speed.Mul(in.Capacitance).Mul(s.amplitude)
	source := func(x units.Quantity) units.Quantity { return s.peak().Sub(s.below(x)) }
	charging := func(x units.Quantity) units.Quantity { return rate.Mul(units.Sin(x)).Neg() }
	pulse := func(x units.Quantity) units.Quantity { return charging(x).Add(s.load.current(source(x))) }
	over := func(f func(x units.Quantity) units.Quantity) units.Quantity {
		return integral(start.Neg(), end, f).Div(s.speed)
	}
	square := func(f func(x units.Quantity) units.Quantity) func(x units.Quantity) units.Quantity {
		return func(x units.Quantity) units.Quantity { return f(x).Mul(f(x)) }
	}
	mean := over(source).Add(s.load.area(voltage, droop, in.Capacitance, time)).Div(period)
	loadCurrent := over(func(x units.Quantity) units.Quantity { return s.load.current(source(x)) }).Add(in.Capacitance.Mul(droop)).Div(period)
	pulseRMS := units.Sqrt(over(square(pulse)).Div(period))
	capacitorRMS := units.Sqrt(over(square(charging)).Add(s.load.heat(voltage, droop, in.Capacitance, time)).Div(period))
	highest := start
	if s.load.kind == ofResistance {
		highest = units.Min(start, units.Atan(s.speed.Mul(s.load.size).Mul(in.Capacitance)))
	}
	return s.result(in, RectifierResult{
		Start:        start,
		End:          end,
		Peak:         s.peak(),
		Valley:       source(start),
		Ripple:       s.below(start),
		Mean:         mean,
		LoadCurrent:  loadCurrent,
		PulsePeak:    pulse(highest.Neg()),
		PulseRMS:     pulseRMS,
		CapacitorRMS: capacitorRMS,
	}), nil
}

// below is by how much the source is below its peak, at an angle from it.
func (s shape) below(x units.Quantity) units.Quantity {
	half := units.Sin(x.Mul(units.Number(0.5)))
	return units.Number(2).Mul(s.amplitude).Mul(half).Mul(half)
}

// end is the angle after the peak at which the source falls faster than the
// load discharges the reservoir.
func (s shape) end(in RectifierInputs) (units.Quantity, error) {
	rate := s.speed.Mul(in.Capacitance).Mul(s.amplitude)
	zero := none.Mul(s.crossing)
	if s.load.kind != ofPower {
		if s.load.kind == ofCurrent {
			if err := argument.Under("LoadCurrent", s.load.size, "what the reservoir gives while it follows the source", rate.Mul(units.Sin(s.crossing)), "raise Capacitance, or lower the load"); err != nil {
				return none, err
			}
		}
		return units.Solve("the end of conduction", zero, s.crossing, func(x units.Quantity) units.Quantity {
			return rate.Mul(units.Sin(x)).Sub(s.load.current(s.peak().Sub(s.below(x))))
		}), nil
	}
	// The power that the reservoir gives while it follows the source has a
	// largest value; before it lies the end.
	one, four, eight := units.Number(1), units.Number(4), units.Number(8)
	cosine := s.share.Add(units.Sqrt(s.share.Mul(s.share).Add(eight))).Div(four)
	latest := units.Number(2).Mul(units.Atan(units.Sqrt(one.Sub(cosine).Div(one.Add(cosine)))))
	given := func(x units.Quantity) units.Quantity {
		return rate.Mul(units.Sin(x)).Mul(s.peak().Sub(s.below(x)))
	}
	if err := argument.Under("LoadPower", s.load.size, "what the reservoir gives while it follows the source", given(latest), "raise Capacitance, or lower the load"); err != nil {
		return none, err
	}
	return units.Solve("the end of conduction", zero, latest, func(x units.Quantity) units.Quantity {
		return given(x).Sub(s.load.size)
	}), nil
}

// result fills in what follows from the pulse in either way of finding it.
func (s shape) result(in RectifierInputs, r RectifierResult) RectifierResult {
	one, two := units.Number(1), units.Number(2)
	pulses := units.Number(in.Arrangement.pulses())
	radian := units.MustParse("1 rad")
	usual := s.usualRipple(in)
	r.Amplitude, r.Drop = s.amplitude, s.drop
	r.ConductionTime = r.Start.Add(r.End).Div(s.speed)
	r.Start, r.End = r.Start.Mul(radian), r.End.Mul(radian)
	r.DiodeAverage = r.LoadCurrent.Div(pulses)
	r.DiodeRMS = r.PulseRMS.Div(units.Sqrt(pulses))
	r.SourceRMS = r.DiodeRMS
	r.Reverse = two.Mul(s.amplitude).Sub(s.drop)
	if in.Arrangement == Bridge {
		r.SourceRMS = r.PulseRMS
		r.Reverse = s.amplitude.Sub(s.drop.Div(two))
	}
	r.DiodeLoss = s.drop.Mul(r.LoadCurrent)
	r.ResistanceLoss = argument.Power.OrZero(none)
	if argument.Given(in.Resistance) {
		r.ResistanceLoss = in.Resistance.Mul(r.PulseRMS).Mul(r.PulseRMS)
	}
	r.UsualRipple = usual
	r.UsualRippleError = usual.Div(r.Ripple).Sub(one)
	r.UsualPulsePeak = s.load.current(s.peak()).Mul(one.Add(two.Mul(units.Pi).Div(pulses).Mul(units.Sqrt(two.Mul(s.amplitude).Div(usual)))))
	return r
}
