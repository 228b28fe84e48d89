package inverting

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// A time-domain simulation of the circuit agrees with the formulas over a grid
// of designs: diode, synchronous and forced, resting and not, inverting, SEPIC
// with two inductors and on one core. Limits: 1 % with drops of a few per cent
// of the voltages, because the formulas take ramps as straight.
func TestSimulation(t *testing.T) {
	t.Parallel()
	inverting := circuit{out: 5, f: 500e3, l1: 15e-6, on: 0.12, r1: 0.05, steps: 1000}
	two := circuit{out: 12, f: 400e3, l1: 33e-6, l2: 22e-6, cc: 1000e-6, on: 0.08, r1: 0.06, r2: 0.05, steps: 800}
	core := two
	core.l1, core.l2, core.m, core.r2 = 22e-6, 22e-6, 22e-6*0.995, 0.06
	for name, c := range map[string]circuit{"inverting": inverting, "two": two, "core": core} {
		for _, kind := range []string{"diode", "synchronous", "forced"} {
			for _, in := range []float64{4.5, 12, 24} {
				for _, load := range []float64{0.01, 0.06, 0.3, 1} {
					if name != "inverting" && in < 5 {
						in = 6
					}
					c := c
					c.in = in
					switch kind {
					case "diode":
						c.diode = 0.45
					case "synchronous":
						c.rect = 0.09
					case "forced":
						c.rect, c.reverse = 0.09, true
					}
					t.Run(fmt.Sprint(name, kind, in, load), func(t *testing.T) {
						t.Parallel()
						compare(t, c, load)
					})
				}
			}
		}
	}
}

func (c circuit) stage(load float64) Stage {
	s := Stage{
		Input: of(c.in, "V"), Output: of(-c.out, "V"), Load: of(load, "A"), Frequency: of(c.f, "Hz"), Inductance: of(c.l1, "H"),
		Switch: of(c.on, "Ω"), Winding: of(c.r1, "Ω"), Forced: c.reverse,
	}
	if c.diode > 0 {
		s.Diode = of(c.diode, "V")
	} else {
		s.Rectifier = of(c.rect, "Ω")
	}
	if c.cc > 0 {
		s.SEPIC, s.Output, s.SecondWinding = true, of(c.out, "V"), of(c.r2, "Ω")
		if c.m > 0 {
			s.Coupled = true
		} else {
			s.Second = of(c.l2, "H")
		}
	}
	return s
}

func compare(t *testing.T, c circuit, load float64) {
	stage := c.stage(load)
	i, err := Currents(stage)
	expect.Must(t, i, err)
	input, err := InputRipple(InputRippleInputs{Stage: stage, Capacitance: q("10 µF")})
	expect.Must(t, input, err)
	output, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("10 µF")})
	expect.Must(t, output, err)
	p, err := Losses(LossesInputs{Stage: stage})
	expect.Must(t, p, err)
	duty, samples := c.at(load, i.OnShare.SI())
	both := func(s sample) float64 { return s.i1 + s.i2 }
	high := func(s sample) float64 { return s.if_('n', s.i1+s.i2) }
	low := func(s sample) float64 { return s.if_('f', s.i1+s.i2) }
	feed := high
	if c.cc > 0 {
		feed = func(s sample) float64 { return s.i1 }
	}
	heat := mean(samples, func(s sample) float64 {
		x := s.i1*s.i1*c.r1 + s.i2*s.i2*c.r2 + high(s)*high(s)*c.on + low(s)*low(s)*c.rect + low(s)*c.diode
		return x
	})
	valley, peak := span(samples, both)
	alternating := func(f func(sample) float64) float64 {
		average := mean(samples, f)
		return rms(samples, func(s sample) float64 { return f(s) - average })
	}
	spare := peak / 5
	if c.reverse {
		spare = peak / 2
	}
	type row struct {
		name      string
		got, want float64
		limit     float64 // of the larger of want and floor
		floor     float64
	}
	rows := []row{
		{"OnShare", i.OnShare.SI(), duty, 1e-2, 0},
		{"Peak", i.Peak.SI(), peak, 1e-2, 0},
		{"Valley", i.Valley.SI(), valley, 1e-2, peak},
		{"RMS", i.RMS.SI(), rms(samples, both), 1e-2, 0},
		// The formula leaves out what the ripple heats, which counts beside a
		// small load through which much ripple is forced.
		{"SwitchAverage", i.SwitchAverage.SI(), mean(samples, high), 1e-2, spare},
		{"SwitchRMS", i.SwitchRMS.SI(), rms(samples, high), 1e-2, 0},
		{"RectifierAverage", i.RectifierAverage.SI(), mean(samples, low), 1e-5, 0},
		{"RectifierRMS", i.RectifierRMS.SI(), rms(samples, low), 1e-2, 0},
		{"OutputCapacitorRMS", i.OutputCapacitorRMS.SI(), alternating(low), 1e-2, 0},
		{"InputCapacitorRMS", i.InputCapacitorRMS.SI(), alternating(feed), 1e-2, 0},
		{"output Charge", output.Charge.SI(), charge(samples, low), 1.5e-2, 0},
		{"input Charge", input.Charge.SI(), charge(samples, feed), 1.5e-2, 0},
		{"conduction losses", p.Total.SI(), heat, 2e-2, 0},
		// What comes in goes out or heats.
		{"energy", c.in * mean(samples, feed), c.out*mean(samples, low) + heat, 1e-3, 0},
	}
	if c.cc > 0 {
		l, err := Inductors(stage)
		expect.Must(t, l, err)
		coupling, err := CouplingRipple(CouplingRippleInputs{Stage: stage, Capacitance: of(c.cc, "F")})
		expect.Must(t, coupling, err)
		first, second := func(s sample) float64 { return s.i1 }, func(s sample) float64 { return s.i2 }
		capacitor := func(s sample) float64 {
			if s.phase == 'n' {
				return -s.i2
			}
			return s.i1
		}
		valley1, peak1 := span(samples, first)
		valley2, peak2 := span(samples, second)
		rows = append(rows,
			row{"first Mean", l.Mean.SI(), mean(samples, first), 1e-2, spare},
			row{"first Peak", l.Peak.SI(), peak1, 1e-2, peak},
			row{"first Valley", l.Valley.SI(), valley1, 1e-2, peak},
			row{"first RMS", l.RMS.SI(), rms(samples, first), 1e-2, 0},
			row{"second Mean", l.SecondMean.SI(), mean(samples, second), 1e-2, 0},
			row{"second Peak", l.SecondPeak.SI(), peak2, 1e-2, peak},
			row{"second Valley", l.SecondValley.SI(), valley2, 1e-2, peak},
			row{"second RMS", l.SecondRMS.SI(), rms(samples, second), 1e-2, 0},
			row{"CouplingRMS", l.CouplingRMS.SI(), rms(samples, capacitor), 1e-2, 0},
			row{"CouplingCharge", l.CouplingCharge.SI(), charge(samples, capacitor), 1.5e-2, 0},
			row{"coupling Voltage", coupling.Voltage.SI(), mean(samples, func(s sample) float64 { return s.v }), 2e-3, 0},
		)
	}
	for _, x := range rows {
		if d := math.Abs(x.got - x.want); !(d <= x.limit*math.Max(math.Abs(x.want), x.floor)) {
			t.Errorf("%s is %v, simulated %v: %.2g %% off", x.name, x.got, x.want, 100*d/math.Abs(x.want))
		}
	}
}
