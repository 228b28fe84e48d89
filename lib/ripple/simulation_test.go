package ripple

import (
	"fmt"
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/lib/internal/expect"

	"pgregory.net/rapid"
)

// bench is a rectifier on the bench: it shares nothing with the formulas. The
// output is integrated in small steps; a diode is a switch that closes when
// the source is above the output.
type bench struct {
	amplitude, drop, f, r, c float64
	half                     bool
	current                  func(v float64) float64
}

type seen struct{ peak, valley, mean, load, pulse, pulseRMS, capRMS, lossD, lossR, out, in float64 }

func (b bench) source(t float64) float64 {
	x := math.Cos(2 * math.Pi * b.f * t)
	if !b.half {
		x = math.Abs(x)
	}
	return b.amplitude*x - b.drop
}

// run goes on until a period repeats the one before it, and reports the last.
func (b bench) run(t *testing.T) seen {
	const steps = 20000
	h := 1 / b.f / steps
	v := b.source(0)
	for range 20000 {
		before := v
		w := seen{peak: math.Inf(-1), valley: math.Inf(1)}
		for k := range steps {
			at := (float64(k) + 0.5) * h
			var pulse, next float64
			if b.r > 0 { // the midpoint rule
				mid := v + h/2*(math.Max(0, (b.source(at-h/2)-v)/b.r)-b.current(v))/b.c
				pulse = math.Max(0, (b.source(at)-mid)/b.r)
				next = v + h*(pulse-b.current(mid))/b.c
			} else { // a stiff source lifts the output to itself
				next = v - h*b.current(v)/b.c
				if e := b.source(at + h/2); e > next {
					pulse = (e - next) / h * b.c
					next = e
				}
			}
			middle := (v + next) / 2
			load := b.current(middle)
			w.peak, w.valley = math.Max(w.peak, next), math.Min(w.valley, next)
			w.mean += middle / steps
			w.load += load / steps
			w.pulse = math.Max(w.pulse, pulse)
			w.pulseRMS += pulse * pulse / steps
			w.capRMS += (pulse - load) * (pulse - load) / steps
			w.lossD += pulse * b.drop / steps
			w.lossR += pulse * pulse * b.r / steps
			w.out += middle * load / steps
			w.in += pulse * (b.source(at) + b.drop) / steps
			v = next
		}
		w.pulseRMS, w.capRMS = math.Sqrt(w.pulseRMS), math.Sqrt(w.capRMS)
		if math.Abs(v-before) < 2e-7*v {
			return w
		}
	}
	t.Fatal("does not settle")
	return seen{}
}

// Half wave, full wave and bridge, at a stiff source and at one with
// resistance, each kind of load, light and heavy. Limit: 0.5 %; 2 % for the
// peak of the current at a stiff source, which begins with a step.
func TestSimulatedRectifiers(t *testing.T) {
	t.Parallel()
	for _, a := range []Arrangement{HalfWave, FullWave, Bridge} {
		for _, r := range []float64{0, 0.5, 5} {
			for _, size := range []float64{0.05, 0.4} { // A at the peak
				for _, kind := range []kind{ofCurrent, ofPower, ofResistance} {
					t.Run(fmt.Sprint(a, r, size, kind), func(t *testing.T) {
						t.Parallel()
						compareRectifier(t, a, r, size, kind)
					})
				}
			}
		}
	}
}

func compareRectifier(t *testing.T, a Arrangement, r, size float64, kind kind) {
	b := bench{amplitude: 20, drop: 0.8, f: 50, r: r, c: 1e-3, half: a == HalfWave}
	if a == Bridge {
		b.drop = 1.6
	}
	top := b.amplitude - b.drop
	if kind == ofPower && r == 5 {
		size /= 3 // 7.5 W is the most that a bridge gives through 5 Ω, a half wave half of it
	}
	in := RectifierInputs{Arrangement: a, Input: of(20/math.Sqrt2, "V"), Frequency: q("50 Hz"), Diode: q("0.8 V"), Capacitance: q("1 mF")}
	switch kind {
	case ofCurrent:
		in.LoadCurrent = of(size, "A")
		b.current = func(float64) float64 { return size }
	case ofPower:
		in.LoadPower = of(size*top, "W")
		b.current = func(v float64) float64 { return size * top / v }
	default:
		in.LoadResistance = of(top/size, "Ω")
		b.current = func(v float64) float64 { return v * size / top }
	}
	f := Rectifier
	if r > 0 {
		in.Resistance = of(r, "Ω")
		f = RectifierWithSource
	}
	got, err := f(in)
	expect.Must(t, got, err)
	w := b.run(t)
	peakLimit := 5e-3
	if r == 0 {
		peakLimit = 2e-2
	}
	power := got.Mean.SI() * got.LoadCurrent.SI() // of a constant current
	switch kind {
	case ofPower:
		power = size * top
	case ofResistance:
		power = w.out // needs the mean square, which the result does not have
	}
	for _, x := range []struct {
		name      string
		got, want float64
		limit     float64
	}{
		{"Peak", got.Peak.SI(), w.peak, 1e-3},
		{"Valley", got.Valley.SI(), w.valley, 1e-3},
		{"Ripple", got.Ripple.SI(), w.peak - w.valley, 5e-3},
		{"Mean", got.Mean.SI(), w.mean, 1e-3},
		{"LoadCurrent", got.LoadCurrent.SI(), w.load, 1e-3},
		{"PulsePeak", got.PulsePeak.SI(), w.pulse, peakLimit},
		{"PulseRMS", got.PulseRMS.SI(), w.pulseRMS, 5e-3},
		{"CapacitorRMS", got.CapacitorRMS.SI(), w.capRMS, 5e-3},
		{"DiodeLoss", got.DiodeLoss.SI(), w.lossD, 5e-3},
		{"ResistanceLoss", got.ResistanceLoss.SI(), w.lossR, 5e-3},
		// What the source gives goes into the load or heats; on the bench too.
		{"energy", power + got.DiodeLoss.SI() + got.ResistanceLoss.SI(), w.in, 5e-3},
		{"energy on the bench", w.out + w.lossD + w.lossR, w.in, 5e-3},
	} {
		if d := math.Abs(x.got - x.want); !(d <= x.limit*math.Abs(x.want)) {
			t.Errorf("%s is %v, simulated %v: %.2g %% off", x.name, x.got, x.want, 100*d/math.Abs(x.want))
		}
	}
}

// The current into an empty reservoir, integrated from every phase: none is
// above the worst, and neither is the square summed over the time.
func TestSimulatedInrush(t *testing.T) {
	t.Parallel()
	for _, c := range []float64{20e-6, 1e-3, 20e-3} {
		i, err := Inrush(InrushInputs{Arrangement: FullWave, Input: of(20/math.Sqrt2, "V"), Diode: q("0.8 V"), Resistance: q("1 Ω"), Capacitance: of(c, "F")})
		expect.Must(t, i, err)
		highest, square := 0.0, 0.0
		for phase := 0.0; phase < 1; phase += 0.05 {
			b := bench{amplitude: 20, drop: 0.8, f: 50}
			const h = 1e-6
			v, sum := 0.0, 0.0
			for k := range 200000 {
				at := float64(k)*h + phase*0.01
				mid := v + h/2*math.Max(0, b.source(at)-v)/c
				pulse := math.Max(0, b.source(at+h/2)-mid)
				v += pulse * h / c
				sum += pulse * pulse * h
				highest = math.Max(highest, pulse)
			}
			square = math.Max(square, sum)
		}
		if i.Current.SI() < highest || i.Current.SI() > highest*1.03 {
			t.Errorf("%v F: the worst current is %v, found %v", c, i.Current, highest)
		}
		if bound := i.SquareTime.SI(); square > bound || c < 1e-4 && square < bound*0.9 {
			t.Errorf("%v F: the square is at most %v, found %v", c, bound, square)
		}
	}
}

// nodal solves a chain by the admittances of its nodes and Gauss's
// elimination.
func nodal(in FilterInputs, f float64) []float64 {
	s := complex(0, 2*math.Pi*f)
	n := len(in.Sections)
	y := make([][]complex128, n)
	for i := range y {
		y[i] = make([]complex128, n+1)
	}
	for k, p := range in.Sections {
		z := complex(p.Resistance.SI(), 0) + s*complex(p.Inductance.SI(), 0)
		if k == 0 {
			z += complex(in.Source.SI(), 0)
			y[0][n] = 1 / z
		} else {
			y[k-1][k-1] += 1 / z
			y[k-1][k] -= 1 / z
			y[k][k-1] -= 1 / z
		}
		y[k][k] += 1/z + 1/(complex(p.ESR.SI(), 0)+1/(s*complex(p.Capacitance.SI(), 0)))
		if p.Damping.SI() > 0 {
			y[k][k] += 1 / (complex(p.DampingESR.SI(), 0) + 1/(s*complex(p.Damping.SI(), 0)))
		}
	}
	if in.Load.SI() > 0 {
		y[n-1][n-1] += complex(1/in.Load.SI(), 0)
	}
	for i := range n {
		for j := i + 1; j < n; j++ {
			ratio := y[j][i] / y[i][i]
			for k := i; k <= n; k++ {
				y[j][k] -= ratio * y[i][k]
			}
		}
	}
	sizes := make([]float64, n)
	v := make([]complex128, n)
	for i := n - 1; i >= 0; i-- {
		v[i] = y[i][n]
		for k := i + 1; k < n; k++ {
			v[i] -= y[i][k] * v[k]
		}
		v[i] /= y[i][i]
		sizes[i] = cmplx.Abs(v[i])
	}
	return sizes
}

// Chains of any kind equal the solution of their nodes; the peak is nowhere
// exceeded; one section of an LC filter is what LC says.
func TestFilterAgainstNodes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		between := func(name string, low, high float64) float64 {
			return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
		}
		in := FilterInputs{Source: of(between("source", 1e-3, 10), "Ω"), Load: of(between("load", 0.1, 1e4), "Ω"), Frequency: of(between("frequency", 10, 1e7), "Hz")}
		for range rapid.IntRange(1, 4).Draw(t, "sections") {
			s := Section{Resistance: of(between("resistance", 1e-3, 100), "Ω"), Inductance: of(between("inductance", 1e-7, 1e-3), "H"), Capacitance: of(between("capacitance", 1e-8, 1e-3), "F"), ESR: of(between("ESR", 1e-3, 1), "Ω")}
			if rapid.Bool().Draw(t, "damped") {
				s.Damping, s.DampingESR = of(between("damping", 1e-7, 1e-3), "F"), of(between("damping ESR", 0.01, 10), "Ω")
			}
			in.Sections = append(in.Sections, s)
		}
		f, err := Filter(in)
		if err != nil {
			t.Fatal(err)
		}
		want := nodal(in, in.Frequency.SI())
		for k, got := range f.After {
			if math.Abs(got.SI()-want[k]) > 1e-9*want[k] {
				t.Fatalf("behind section %d %v is left, of the nodes %v", k+1, got.SI(), want[k])
			}
		}
		for k := range 60 {
			at := 10 * math.Pow(10, float64(k)/10)
			if v := nodal(in, at); v[len(v)-1] > f.PeakTransfer.SI()*1.001 {
				t.Fatalf("the peak is %v at %v, of the nodes %v at %v", f.PeakTransfer, f.PeakFrequency, v[len(v)-1], at)
			}
		}
		s := in.Sections[0]
		one, err := LC(LCInputs{Inductance: s.Inductance, Winding: s.Resistance, Capacitance: s.Capacitance, ESR: s.ESR, Load: in.Load, Frequency: in.Frequency})
		if err != nil {
			t.Fatal(err)
		}
		s.Damping, s.DampingESR = none, none
		alone := nodal(FilterInputs{Sections: []Section{s}, Load: in.Load}, in.Frequency.SI())[0]
		if math.Abs(one.Transfer.SI()-alone) > 1e-9*alone {
			t.Fatalf("LC says %v, the node %v", one.Transfer.SI(), alone)
		}
	})
}

// A capacitor charged, discharged and bled in small steps.
func TestSimulatedCharging(t *testing.T) {
	t.Parallel()
	const r, c, h = 1e4, 1e-5, 2e-6
	for _, test := range []struct{ source, start, end float64 }{{5, 0, 4}, {0, 5, 1}, {-3, 2, -1}, {12, 9, 11.5}} {
		got, err := RCTime(RCTimeInputs{Resistance: of(r, "Ω"), Capacitance: of(c, "F"), Source: of(test.source, "V"), Start: of(test.start, "V"), End: of(test.end, "V")})
		expect.Must(t, got, err)
		v, n := test.start, 0
		for ; (v < test.end) == (test.start < test.end); n++ {
			mid := v + h/2*(test.source-v)/(r*c)
			v += h * (test.source - mid) / (r * c)
		}
		if math.Abs(got.Time.SI()-float64(n)*h) > 2*h {
			t.Errorf("%v takes %v, integrated %v s", test, got.Time, float64(n)*h)
		}
	}
	for name, feed := range map[string]struct {
		in      HoldUpInputs
		current func(v float64) float64
	}{
		"current":    {HoldUpInputs{LoadCurrent: q("50 mA")}, func(float64) float64 { return 0.05 }},
		"power":      {HoldUpInputs{LoadPower: q("0.8 W"), Efficiency: q("80 %")}, func(v float64) float64 { return 1 / v }},
		"resistance": {HoldUpInputs{LoadResistance: q("200 Ω")}, func(v float64) float64 { return v / 200 }},
	} {
		feed.in.Capacitance, feed.in.Start, feed.in.Stop = q("1 mF"), q("30 V"), q("12 V")
		got, err := HoldUp(feed.in)
		expect.Must(t, got, err)
		v, n, energy := 30.0, 0, 0.0
		const h = 2e-5
		for ; v > 12; n++ {
			mid := v - h/2*feed.current(v)/1e-3
			v -= h * feed.current(mid) / 1e-3
			energy += h * mid * feed.current(mid)
		}
		if math.Abs(got.Time.SI()-float64(n)*h) > 2*h || math.Abs(got.Energy.SI()-energy) > 1e-3*energy {
			t.Errorf("%s: held up %v with %v, integrated %v s with %v J", name, got.Time, got.Energy, float64(n)*h, energy)
		}
	}
}
