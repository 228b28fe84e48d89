package stepdown

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// modulated is a whole stage with its output capacitor and a resistance as its
// load, whose control voltage a sine modulates. It is integrated in small
// steps by the midpoint rule, a step ending early where the switch opens, and
// shares nothing with the formulas.
type modulated struct {
	in, f, l, high, low, diode, winding float64
	load, c, esr                        float64
	reverse                             bool

	ramp           float64 // of voltage mode; 0: current mode
	powerStage, se float64 // of current mode
	control        float64
	amplitude      float64
	periods        int // of switching in one of the modulation

	i, v, t float64 // state: inductor current, capacitor's inner voltage, time
	resting bool
}

func (m *modulated) output(i, v float64) float64 {
	return (v + i*m.esr) * m.load / (m.load + m.esr)
}

func (m *modulated) slopes(i, v float64, on bool) (di, dv float64) {
	out := m.output(i, v)
	switch {
	case on:
		di = (m.in - i*(m.high+m.winding) - out) / m.l
	case m.resting:
		i = 0
	default:
		di = (-m.diode - i*(m.low+m.winding) - out) / m.l
	}
	return di, (i - out/m.load) / m.c
}

// step goes on by h, and adds the output's part at the modulation's frequency.
func (m *modulated) step(h float64, on bool, sum *complex128) {
	di, dv := m.slopes(m.i, m.v, on)
	mi, mv := m.i+di*h/2, m.v+dv*h/2
	di, dv = m.slopes(mi, mv, on)
	*sum += complex(m.output(mi, mv)*h, 0) * cmplx.Exp(complex(0, -m.omega()*(m.t+h/2)))
	m.i, m.v, m.t = m.i+di*h, m.v+dv*h, m.t+h
	if !on && !m.reverse && m.i <= 0 {
		m.i, m.resting = 0, true
	}
}

func (m *modulated) omega() float64 { return 2 * math.Pi * m.f / float64(m.periods) }

// over is by how much the modulator's ramp, or the current with its ramp, is
// above the control voltage at a time in a period.
func (m *modulated) over(in float64) float64 {
	control := m.control + m.amplitude*math.Sin(m.omega()*m.t)
	if m.ramp > 0 {
		return in*m.f*m.ramp - control
	}
	return m.i + m.se*in - m.powerStage*control
}

// period goes on by one period.
func (m *modulated) period(sum *complex128) {
	const steps = 300
	h := 1 / m.f / steps
	m.resting = false
	on := true
	for k := range steps {
		if !on {
			m.step(h, false, sum)
			continue
		}
		before, was := *m, *sum
		m.step(h, true, sum)
		a, b := before.over(float64(k)*h), m.over(float64(k+1)*h)
		if b < 0 {
			continue
		}
		// Go back, and only as far as to the crossing.
		on = false
		share := math.Max(0, math.Min(1, a/(a-b)))
		*m, *sum = before, was
		m.step(h*share, true, sum)
		m.step(h*(1-share), false, sum)
	}
}

// response is what the control voltage does to the output at the modulation's
// frequency.
func (m *modulated) response(settle, measure int) complex128 {
	var sum complex128
	for range settle * m.periods {
		m.period(&sum)
	}
	sum = 0
	start := m.t
	for range measure * m.periods {
		m.period(&sum)
	}
	// sin ωt is the real part of e^jωt/j, half of which is at +ω.
	return sum * complex(2/(m.t-start)/m.amplitude, 0) * complex(0, 1)
}

// number is that of a quantity in SI; of none, 0.
func number(x units.Quantity) float64 {
	if x == none {
		return 0
	}
	return x.SI()
}

// Control to output by both ways of control, on both sides of the boundary,
// against the modulated circuit, over frequencies from a hundredth to a seventh of
// the switching frequency.
func TestPlantsAgainstSimulation(t *testing.T) {
	t.Parallel()
	type design struct {
		name                  string
		stage                 Stage
		capacitance, esr      string
		ramp, control         string
		powerStage, slope     string
		gain, degrees         float64 // how near, below a tenth of the frequency
		fastGain, fastDegrees float64 // and at a seventh
	}
	s := lossy()
	diode := Stage{Input: q("12 V"), Output: q("5 V"), Load: q("2 A"), Frequency: q("400 kHz"), Inductance: q("10 µH"), Diode: q("0.5 V"), Winding: q("30 mΩ")}
	light := diode
	light.Load, light.Input = q("0.15 A"), q("24 V")
	long := diode
	long.Input, long.Load = q("7 V"), q("1.5 A")
	longLight := long
	longLight.Load = q("80 mA")
	for _, d := range []design{
		{"voltage mode", s, "44 µF", "5 mΩ", "2 V", "", "", "", 0.03, 2, 0.05, 4},
		{"voltage mode, diode", diode, "47 µF", "20 mΩ", "1.5 V", "", "", "", 0.03, 2, 0.05, 4},
		{"voltage mode, light load", light, "22 µF", "5 mΩ", "2 V", "", "", "", 0.05, 4, 0.1, 10},
		{"current mode", s, "44 µF", "5 mΩ", "", "", "5 S", "0 A/s", 0.05, 3, 0.1, 6},
		{"current mode with a slope", diode, "47 µF", "20 mΩ", "", "", "5 S", "0.3 A/µs", 0.05, 3, 0.1, 6},
		{"current mode, long duty", long, "47 µF", "5 mΩ", "", "", "8 S", "0.35 A/µs", 0.05, 3, 0.1, 6},
		{"current mode, light load", light, "22 µF", "5 mΩ", "", "", "5 S", "0.2 A/µs", 0.06, 9, 0.1, 14},
		{"current mode, long duty, light load", longLight, "22 µF", "5 mΩ", "", "", "5 S", "0.3 A/µs", 0.06, 9, 0.1, 14},
	} {
		t.Run(d.name, func(t *testing.T) {
			t.Parallel()
			var plant loop.Plant
			var control float64
			x := d.stage
			i, err := Currents(x)
			expect.Must(t, i, err)
			if d.ramp != "" {
				r, err := VoltageMode(VoltageModeInputs{Stage: x, Capacitance: q(d.capacitance), ESR: q(d.esr), Ramp: q(d.ramp)})
				plant, control = expect.Must(t, r, err).Plant, i.OnShare.SI()*q(d.ramp).SI()
			} else {
				r, err := CurrentMode(CurrentModeInputs{Stage: x, Capacitance: q(d.capacitance), ESR: q(d.esr), PowerStage: q(d.powerStage), Slope: q(d.slope)})
				plant = expect.Must(t, r, err).Plant
				control = (i.Peak.SI() + q(d.slope).SI()*i.OnTime.SI()) / q(d.powerStage).SI()
			}
			for _, periods := range []int{100, 10, 7} {
				m := &modulated{
					in: x.Input.SI(), f: x.Frequency.SI(), l: x.Inductance.SI(), high: number(x.HighSwitch), low: number(x.LowSwitch), diode: number(x.Diode), winding: number(x.Winding),
					load: x.Output.SI() / x.Load.SI(), c: q(d.capacitance).SI(), esr: q(d.esr).SI(), reverse: x.Forced, control: control, amplitude: control / 100, periods: periods,
					i: math.Max(0, i.Valley.SI()), v: x.Output.SI(),
				}
				if d.ramp != "" {
					m.ramp = q(d.ramp).SI()
				} else {
					m.powerStage, m.se = q(d.powerStage).SI(), q(d.slope).SI()
				}
				got := m.response(1+800/periods, 1+60/periods)
				r, err := loop.Response(plant, loop.Amplifier{Upper: q("1 Ω"), Capacitor: q("1 F")}, x.Frequency.Div(units.Number(float64(periods))))
				expect.Must(t, r, err)
				want, angle := units.VoltageRatio(r.PlantGain).SI(), r.PlantPhase.SI()
				ratio, turn := cmplx.Abs(got)/want, cmplx.Phase(got*cmplx.Exp(complex(0, -angle)))*180/math.Pi
				gain, degrees := d.gain, d.degrees
				if periods < 10 {
					gain, degrees = d.fastGain, d.fastDegrees
				}
				text := fmt.Sprintf("at 1/%d of the frequency the circuit has %.4g times the gain and is %.2f° ahead", periods, ratio, turn)
				t.Log(text)
				// What the circuit has less of than said would be missed.
				if math.Abs(ratio-1) > gain || turn > degrees || turn < -1 {
					t.Error(text)
				}
			}
		})
	}
}

// At the least slope a disturbance of the current neither grows nor falls from
// period to period, and below the boundary one of the output: a little above it
// falls, a little below it grows, in the circuit.
func TestLeastSlopeAgainstSimulation(t *testing.T) {
	t.Parallel()
	for _, d := range []struct {
		name    string
		stage   Stage
		periods int
		di, dv  float64 // disturbance
	}{
		{"continuous", Stage{Input: q("7 V"), Output: q("5 V"), Load: q("1.5 A"), Frequency: q("400 kHz"), Inductance: q("10 µH"), Diode: q("0.5 V"), Winding: q("30 mΩ")}, 40, 1e-3, 0},
		{"at rest", Stage{Input: q("6 V"), Output: q("5 V"), Load: q("30 mA"), Frequency: q("400 kHz"), Inductance: q("10 µH"), Diode: q("0.2 V")}, 2000, 0, 1e-3},
	} {
		in := CurrentModeInputs{Stage: d.stage, Capacitance: q("22 µF"), PowerStage: q("5 S"), Slope: q("2 A/µs")}
		r, err := CurrentMode(in)
		least := expect.Must(t, r, err).LeastSlope
		if least.SI() < 1e4 {
			t.Fatalf("%s: the least slope is %v", d.name, least)
		}
		i, err := Currents(d.stage)
		expect.Must(t, i, err)
		for _, share := range []float64{0.9, 1.1} {
			slope := least.SI() * share
			run := func(di, dv float64) *modulated {
				x := d.stage
				m := &modulated{
					in: x.Input.SI(), f: x.Frequency.SI(), l: x.Inductance.SI(), diode: number(x.Diode), winding: number(x.Winding), load: x.Output.SI() / x.Load.SI(), c: 22e-6,
					powerStage: 5, se: slope, control: (i.Peak.SI() + slope*i.OnTime.SI()) / 5, periods: 1, i: math.Max(0, i.Valley.SI()) + di, v: x.Output.SI() + dv,
				}
				var sum complex128
				for range d.periods {
					m.period(&sum)
				}
				return m
			}
			a, b := run(0, 0), run(d.di, d.dv)
			growth := math.Abs(b.i-a.i)/1e-3 + math.Abs(b.v-a.v)/1e-3
			if d.dv == 0 {
				growth = math.Abs(b.i-a.i) / 1e-3
			}
			if (growth > 1) != (share < 1) {
				t.Errorf("%s: at %g of the least slope, %v, a disturbance is %g times itself after %d periods", d.name, share, least, growth, d.periods)
			}
			in.Slope = of(slope, "A/s")
			if _, err := CurrentMode(in); (err == nil) != (share > 1) {
				t.Errorf("%s: at %g of the least slope: %v", d.name, share, err)
			}
		}
	}
}
