package stepup

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// circuit is a stage whose output a large capacitor holds: an inductor with a
// winding between the input and the switch node. It shares nothing with the
// formulas: it integrates L·di/dt = v in small steps, by the midpoint rule.
type circuit struct {
	in, out, f, l, low, rectifier, diode, winding float64
	reverse                                       bool
}

// period integrates one period from current i and returns the current at its
// end, and the samples of the inductor's and the rectifier's current.
func (c circuit) period(duty, i float64, keep bool) (end float64, inductor, rectifier []float64) {
	const steps = 4000
	h := 1 / c.f / steps
	slope := func(i, on float64) float64 {
		return (c.in - i*c.winding - on*i*c.low - (1-on)*(c.out+c.diode+i*c.rectifier)) / c.l
	}
	for k := range steps {
		// The step in which the switch opens is on for a part only.
		on := math.Max(0, math.Min(1, duty*steps-float64(k)))
		mid := i + h/2*slope(i, on)
		next := i + h*slope(mid, on)
		if !c.reverse && next < 0 {
			next = 0
		}
		if keep {
			inductor = append(inductor, (i+next)/2)
			rectifier = append(rectifier, (1-on)*(i+next)/2)
		}
		i = next
	}
	return i, inductor, rectifier
}

// settled finds the current at the start of a period that is that at its end.
func (c circuit) settled(duty float64) float64 {
	f := func(i float64) float64 { end, _, _ := c.period(duty, i, false); return end - i }
	a, b := -100.0, 100.0
	if !c.reverse {
		a = 0
	}
	fa, fb := f(a), f(b)
	if !c.reverse && fa <= 0 {
		return 0 // it rests
	}
	// The map is straight but for the rest, so that the chord's zero is near.
	for range 40 {
		m := a - fa*(b-a)/(fb-fa)
		fm := f(m)
		if math.Abs(fm) < 1e-12 {
			return m
		}
		if (fm < 0) == (fa < 0) {
			a, fa = m, fm
		} else {
			b, fb = m, fm
		}
	}
	return (a + b) / 2
}

func average(xs []float64, f func(float64) float64) float64 {
	sum := 0.0
	for _, x := range xs {
		sum += f(x)
	}
	return sum / float64(len(xs))
}

// waves is what a period of a simulated stage shows.
type waves struct{ mean, load, peak, valley, rms, switchRMS, rectifierRMS, outRMS, inRMS, outCharge, inCharge, heat float64 }

// at finds the duty at which the rectifier gives the load on average, by
// halving, below the duty from which on more duty gives less.
func (c circuit) at(load float64) (duty float64, w waves) {
	id := func(x float64) float64 { return x }
	given := func(duty float64) float64 {
		_, _, rectifier := c.period(duty, c.settled(duty), true)
		return average(rectifier, id)
	}
	a, b := 0.0, 1-c.in/(2*(c.out+c.diode))
	for range 34 {
		if m := (a + b) / 2; given(m) < load {
			a = m
		} else {
			b = m
		}
	}
	duty = (a + b) / 2
	_, inductor, rectifier := c.period(duty, c.settled(duty), true)
	sq := func(x float64) float64 { return x * x }
	w = waves{mean: average(inductor, id), load: average(rectifier, id), peak: math.Inf(-1), valley: math.Inf(1), rms: math.Sqrt(average(inductor, sq)), rectifierRMS: math.Sqrt(average(rectifier, sq))}
	w.inRMS = math.Sqrt(average(inductor, func(x float64) float64 { return sq(x - w.mean) }))
	w.outRMS = math.Sqrt(average(rectifier, func(x float64) float64 { return sq(x - w.load) }))
	charge := func(xs []float64, mean float64) float64 {
		q, least, most := 0.0, 0.0, 0.0
		for range 2 { // the extremes may lie across the end of a period
			for _, x := range xs {
				q += (x - mean) / c.f / float64(len(xs))
				least, most = math.Min(least, q), math.Max(most, q)
			}
		}
		return most - least
	}
	w.inCharge, w.outCharge = charge(inductor, w.mean), charge(rectifier, w.load)
	for k, x := range inductor {
		w.peak, w.valley = math.Max(w.peak, x), math.Min(w.valley, x)
		low := x - rectifier[k]
		w.switchRMS += low * low / float64(len(inductor))
		w.heat += (x*x*c.winding + low*low*c.low + rectifier[k]*rectifier[k]*c.rectifier + rectifier[k]*c.diode) / float64(len(inductor))
	}
	w.switchRMS = math.Sqrt(w.switchRMS)
	return duty, w
}

// A time-domain simulation of the circuit agrees with the formulas over a
// grid of designs: diode and synchronous, resting and forced. Limits: 0.5 %,
// because the formulas take ramps as straight, and 2 % below the boundary,
// because they take resistive drops at the mean current there.
func TestSimulation(t *testing.T) {
	t.Parallel()
	base := circuit{out: 12, f: 1e6, l: 6.8e-6, low: 0.1, winding: 0.04}
	diode, synchronous, forced := base, base, base
	diode.diode = 0.4
	synchronous.rectifier, forced.rectifier = 0.06, 0.06
	forced.reverse = true
	for name, c := range map[string]circuit{"diode": diode, "synchronous": synchronous, "forced": forced} {
		for _, in := range []float64{3, 5, 9, 11} {
			for _, load := range []float64{0.01, 0.05, 0.15, 0.3} {
				t.Run(fmt.Sprint(name, in, load), func(t *testing.T) {
					t.Parallel()
					c := c
					c.in = in
					compare(t, c, load)
				})
			}
		}
	}
}

func compare(t *testing.T, c circuit, load float64) {
	stage := Stage{
		Input: of(c.in, "V"), Output: of(c.out, "V"), Load: of(load, "A"), Frequency: of(c.f, "Hz"), Inductance: of(c.l, "H"),
		Switch: of(c.low, "Ω"), Winding: of(c.winding, "Ω"), Forced: c.reverse,
	}
	if c.diode > 0 {
		stage.Diode = of(c.diode, "V")
	} else {
		stage.Rectifier = of(c.rectifier, "Ω")
	}
	duty, w := c.at(load)
	i, err := Currents(stage)
	expect.Must(t, i, err)
	input, err := InputRipple(InputRippleInputs{Stage: stage, Capacitance: q("10 µF")})
	expect.Must(t, input, err)
	output, err := OutputRipple(OutputRippleInputs{Stage: stage, Capacitance: q("10 µF")})
	expect.Must(t, output, err)
	p, err := Losses(LossesInputs{Stage: stage})
	expect.Must(t, p, err)
	rests := i.Conduction.SI() < 1
	limit := 5e-3
	if rests {
		limit = 2e-2
	}
	for _, x := range []struct {
		name      string
		got, want float64
		limit     float64 // of the larger of want and floor
		floor     float64
	}{
		{"OnShare", i.OnShare.SI(), duty, limit, 0},
		// The formula leaves out what the ripple heats, which counts beside a
		// small load through which much ripple is forced.
		{"Mean", i.Mean.SI(), w.mean, limit, w.peak / 2},
		{"RectifierAverage", i.RectifierAverage.SI(), w.load, 1e-6, 0},
		{"Peak", i.Peak.SI(), w.peak, limit, 0},
		{"Valley", i.Valley.SI(), w.valley, limit, w.peak},
		{"InductorRMS", i.InductorRMS.SI(), w.rms, limit, 0},
		{"SwitchRMS", i.SwitchRMS.SI(), w.switchRMS, limit, 0},
		{"RectifierRMS", i.RectifierRMS.SI(), w.rectifierRMS, limit, 0},
		{"OutputCapacitorRMS", i.OutputCapacitorRMS.SI(), w.outRMS, limit, 0},
		{"InputCapacitorRMS", i.InputCapacitorRMS.SI(), w.inRMS, limit, 0},
		{"output Charge", output.Charge.SI(), w.outCharge, 2 * limit, 0},
		{"input Charge", input.Charge.SI(), w.inCharge, 2 * limit, 0},
		{"conduction losses", p.Total.SI(), w.heat, 2 * limit, 0},
		{"InputPower", p.InputPower.SI(), c.in * w.mean, 2 * limit, 0},
		// What comes in goes out or heats.
		{"energy", c.in * w.mean, c.out*w.load + w.heat, 1e-3, 0},
	} {
		if d := math.Abs(x.got - x.want); !(d <= x.limit*math.Max(math.Abs(x.want), x.floor)) {
			t.Errorf("%s is %v, simulated %v: %.2g %% off", x.name, x.got, x.want, 100*d/math.Abs(x.want))
		}
	}
}

// Switching the input on, integrated in small steps: a source behind a
// resistance, an inductor, a rectifier that blocks backwards, a capacitor.
func TestSimulatedInrush(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ in, charged, diode, l, c, r float64 }{
		{4.2, 0, 0.4, 10e-6, 22e-6, 0}, {4.2, 0, 0.4, 10e-6, 22e-6, 0.2}, {12, 5, 0.5, 4.7e-6, 100e-6, 0.05},
		{5, 0, 0, 2.2e-6, 47e-6, 0.432}, {5, 1, 0.3, 2.2e-6, 47e-6, 2}, // just below a damping of 1, and far above
	} {
		r, err := Inrush(InrushInputs{
			Input: of(test.in, "V"), Charged: of(test.charged, "V"), Diode: of(test.diode, "V"), Inductance: of(test.l, "H"), Capacitance: of(test.c, "F"), Resistance: of(test.r, "Ω"),
		})
		expect.Must(t, r, err)
		i, v, peak, when := 0.0, test.charged, 0.0, 0.0
		h := math.Sqrt(test.l*test.c) / 20000
		for k := range 2000000 {
			// The current first, then the voltage with the new one: stays on the circle.
			i = math.Max(0, i+h*(test.in-test.diode-v-i*test.r)/test.l)
			v += h * i / test.c
			if i > peak {
				peak, when = i, float64(k)*h
			}
			if i == 0 && k > 0 {
				break
			}
		}
		for _, x := range []struct {
			name      string
			got, want float64
		}{{"Peak", r.Peak.SI(), peak}, {"HighestOutput", r.HighestOutput.SI(), v}, {"PeakTime", r.PeakTime.SI(), when}} {
			if math.Abs(x.got-x.want) > 1e-3*x.want {
				t.Errorf("%v: %s is %v, integrated %v", test, x.name, x.got, x.want)
			}
		}
		if test.r == 0 && (r.Peak.SI() != r.UndampedPeak.SI() || r.HighestOutput.SI() != r.UndampedOutput.SI()) {
			t.Errorf("%v: damped without a resistance", test)
		}
	}
}

// The fastest control after a step, integrated in small steps with the
// averaged inductor: the switch stays on until the inductor carries the larger
// load, or off until it carries no more than the smaller one. Any other duty
// on the way takes more from the capacitor.
func TestSimulatedLoadStep(t *testing.T) {
	t.Parallel()
	const in, out, l, c, load, step = 5.0, 12.0, 10e-6, 47e-6, 0.5, 0.3
	stage := Stage{Input: of(in, "V"), Output: of(out, "V"), Load: of(load, "A"), Frequency: q("1 MHz"), Inductance: of(l, "H")}
	r, err := LoadStep(LoadStepInputs{Stage: stage, Step: of(step, "A"), Capacitance: of(c, "F")})
	expect.Must(t, r, err)
	const h = 1e-9
	// duty is held while the current rises; the output counts as constant.
	under := func(duty float64) float64 {
		missing := 0.0
		for i := out / in * (load - step); i < out/in*load; i += h * (in - (1-duty)*out) / l {
			missing += h * (load - (1-duty)*i)
		}
		return missing
	}
	fastest := under(1)
	if got := r.LeastUnder.SI(); math.Abs(got-fastest) > 2e-3*fastest {
		t.Errorf("LeastUnder is %v, integrated %v", got, fastest)
	}
	for _, duty := range []float64{0.6, 0.7, 0.8, 0.9} {
		if slower := under(duty); slower < fastest {
			t.Errorf("with a duty of %v only %v is missing, with 1 %v", duty, slower, fastest)
		}
	}
	over := 0.0
	for i := out / in * load; i > load-step; i -= h * (out - in) / l {
		over += h * (i - (load - step))
	}
	if got := r.LeastOver.SI(); math.Abs(got-over) > 2e-3*over {
		t.Errorf("LeastOver is %v, integrated %v", got, over)
	}
}
