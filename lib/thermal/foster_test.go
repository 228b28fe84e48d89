package thermal

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// must stops a test at an error.
func must[T any](x T, err error) func(t testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
}

// stagesOf writes resistances in K/W and capacitances in J/K as stages.
func stagesOf(resistances, capacitances []float64) Foster {
	var n Foster
	for i, r := range resistances {
		n.Stages = append(n.Stages, FosterStage{Resistance: q("1 K/W").Mul(units.Number(r)), Capacitance: q("1 J/K").Mul(units.Number(capacitances[i]))})
	}
	return n
}

// The published networks of one part, tank and filter, fitted to the same
// curve: Vishay Si1012R_RC, document 70428, and SiHF12N60E_RC, document 91643.
var (
	tankR   = []float64{327.5464, 123.5765, 88.0766, 293.8005}
	tankC   = []float64{5.4668e-3, 181.9072e-6, 590.9914e-3, 2.1597e-3}
	filterR = []float64{107.6550, 207.6868, 426.5449, 91.1133}
	filterC = []float64{126.6167e-6, 705.9637e-6, 1.9033e-3, 489.9999e-3}
)

// The filter network, integrated in the time domain: a ladder from the
// junction, where the power enters, to the air, with its capacitances to
// ground. It is another network of other values than the tank network which
// the functions take, fitted by its maker to the same curve: the two agree
// to what a fit is good for.
type ladder struct{ r, c, t []float64 }

func (l *ladder) step(power, dt float64) {
	n := len(l.t)
	flow := make([]float64, n+1)
	flow[0] = power
	for i := range n {
		next := 0.0
		if i+1 < n {
			next = l.t[i+1]
		}
		flow[i+1] = (l.t[i] - next) / l.r[i]
	}
	for i := range n {
		l.t[i] += (flow[i] - flow[i+1]) / l.c[i] * dt
	}
}

func TestImpedanceAgainstThePublishedLadder(t *testing.T) {
	t.Parallel()
	network := stagesOf(tankR, tankC)
	l := &ladder{filterR, filterC, make([]float64, 4)}
	const dt = 0.5e-3
	// By steps; the two fits of the maker differ most at 10 ms.
	at := map[int]float64{20: 0.15, 100: 0.06, 600: 0.06, 2000: 0.06, 10000: 0.06, 60000: 0.06, 200000: 0.06}
	for i := 1; i <= 200000; i++ {
		l.step(1, dt)
		if within, ok := at[i]; ok {
			z := must(Impedance(network, q("1 s").Mul(units.Number(float64(i)*dt))))(t).SI()
			if math.Abs(z/l.t[0]-1) > within {
				t.Errorf("after %g s the tank network makes %.1f K/W, the ladder %.1f K/W", float64(i)*dt, z, l.t[0])
			}
		}
	}
	if math.Abs(l.t[0]-833) > 25 {
		t.Errorf("after 100 s the ladder is at %g K/W", l.t[0])
	}
}

// By hand, with e^(−10/1.222) = 0.000279, e^(−10/5.254) = 0.149059 and
// e^(−10/38.14) = 0.769354: 0.693 · 0.999721 + 0.621 · 0.850941 + 0.307 ·
// 0.230646 = 0.692807 + 0.528434 + 0.070808. Stages: IRGP4640D, January 2015,
// p. 8. The impedance of SiHF12N60E at 10 ms: checks of the project, 04-09.
func TestImpedancePublished(t *testing.T) {
	t.Parallel()
	igbt := Foster{Stages: []FosterStage{
		{Resistance: q("0.693 K/W"), TimeConstant: q("1.222 ms")}, {Resistance: q("0.621 K/W"), TimeConstant: q("5.254 ms")}, {Resistance: q("0.307 K/W"), TimeConstant: q("38.14 ms")},
	}}
	expect.Within(t, "IGBT at 10 ms", must(Impedance(igbt, q("10 ms")))(t), "1.29205 K/W", "3e-5 K/W")
	expect.Within(t, "IGBT at once", must(Impedance(igbt, q("0 s")))(t), "0 K/W", "0 K/W")
	expect.Within(t, "IGBT at last", must(Impedance(igbt, q("10 s")))(t), "1.621 K/W", "1e-9 K/W") // 0.693 + 0.621 + 0.307
	mosfet := stagesOf([]float64{.4892393, .5044556, .2857113, 2.5552}, []float64{4.3899e-3, 5.3108e-3, 1.4446e-3, 48.0549e-3})
	expect.Within(t, "MOSFET at 10 ms", must(Impedance(mosfet, q("10 ms")))(t), "1.4625 K/W", "1e-4 K/W")
	expect.Within(t, "MOSFET at last", must(Impedance(mosfet, q("100 s")))(t), "3.8346 K/W", "1e-4 K/W")
	// All of a short pulse goes into the capacitances: t · (1/C₁ + 1/C₂ + …).
	expect.Within(t, "MOSFET after a nanosecond", must(Impedance(mosfet, q("1 ns")))(t), fmt.Sprint(1e-9*(1/4.3899e-3+1/5.3108e-3+1/1.4446e-3+1/48.0549e-3), " K/W"), "1e-11 K/W")
}

// Values of the ladder of the same part, entered as a Foster network, miss the
// curve, and are refused where a point of it is given; its own do not.
func TestLadderIsRefused(t *testing.T) {
	t.Parallel()
	tank, filter := stagesOf(tankR, tankC), stagesOf(filterR, filterC)
	for _, known := range []struct{ time, impedance string }{{"10 ms", "50 K/W"}, {"1 s", "380 K/W"}} {
		tank.KnownTime, tank.KnownImpedance = q(known.time), must(Impedance(stagesOf(tankR, tankC), q(known.time)))(t)
		if _, err := Impedance(tank, q("1 s")); err != nil {
			t.Errorf("the tank network at %s: %v", known.time, err)
		}
		filter.KnownTime, filter.KnownImpedance = tank.KnownTime, tank.KnownImpedance
		z := must(Impedance(stagesOf(filterR, filterC), q(known.time)))(t)
		if _, err := Impedance(filter, q("1 s")); err == nil {
			t.Errorf("at %s the ladder passes with %v for %v", known.time, z, tank.KnownImpedance)
		}
	}
}

// The stages, integrated in the time domain by themselves with small steps, go
// from valley to peak and back as the closed form says, over a grid of
// periods and duties, and take in as much heat as they give off.
func TestPulseTrainSimulated(t *testing.T) {
	t.Parallel()
	r, c := []float64{0.7, 0.6, 0.3}, []float64{2e-3, 10e-3, 0.1}
	network := stagesOf(r, c)
	for _, period := range []float64{1e-3, 5e-3, 50e-3} {
		for _, duty := range []float64{0.02, 0.3, 0.9} {
			const power, base, steps = 20.0, 3.0, 3000
			on := int(math.Round(duty * steps))
			dt := period / steps
			rises := []float64{0, 0, 0}
			var low, high, given, taken float64
			periods := int(math.Ceil(0.6 / period)) // twenty of the longest time constant
			for k := range periods {
				given, taken = 0, 0
				for i := range steps {
					p := base
					if i < on {
						p += power
					}
					if i == 0 {
						low = rises[0] + rises[1] + rises[2]
					}
					for s := range rises {
						// Trapezoidal rule, which is stable and keeps the mean.
						x := dt / (2 * r[s] * c[s])
						before := rises[s]
						rises[s] = (before*(1-x) + 2*x*p*r[s]) / (1 + x)
						if k == periods-1 {
							given += (before + rises[s]) / 2 * dt / r[s] / 3
						}
					}
					taken += p * dt
					if i == on-1 {
						high = rises[0] + rises[1] + rises[2]
					}
				}
			}
			train := must(PulseTrain(PulseTrainInputs{
				Network: network, Reference: q("50 °C"), Power: q("20 W"), Base: q("3 W"),
				Period: q("1 s").Mul(units.Number(period)), Duration: q("1 s").Mul(units.Number(float64(on) * dt)),
			}))(t)
			name := fmt.Sprintf("period %g s, duty %g", period, duty)
			expect.Within(t, name+": peak", train.Peak, fmt.Sprint(50+high, " °C"), "2e-3 K")
			expect.Within(t, name+": valley", train.Valley, fmt.Sprint(50+low, " °C"), "2e-3 K")
			// Each stage passes on all of the power.
			expect.Within(t, name+": mean power", train.MeanPower, fmt.Sprint(given/period, " W"), "1e-3 W")
			if math.Abs(given-taken) > 1e-4*taken {
				t.Errorf("%s: %g J in, %g J out", name, taken, given)
			}
		}
	}
}

// A long train, pulse by pulse, comes to what PulseTrain says; at a duty of
// one it is constant power, and so is a train far faster than all stages.
func TestPulseTrainAtItsLimits(t *testing.T) {
	t.Parallel()
	network := stagesOf([]float64{0.7, 0.6, 0.3}, []float64{2e-3, 10e-3, 0.1})
	in := PulseTrainInputs{Network: network, Reference: q("50 °C"), Power: q("20 W"), Duration: q("5 ms"), Period: q("20 ms")}
	train := must(PulseTrain(in))(t)
	var pulses []TimedPulse
	for i := range 60 {
		pulses = append(pulses, TimedPulse{Start: q("20 ms").Mul(units.Number(float64(i))), Duration: q("5 ms"), Power: q("20 W")})
	}
	list := must(Pulses(PulsesInputs{Network: network, Reference: q("50 °C"), Pulses: pulses, Times: []units.Quantity{q("1.2 s")}}))(t)
	expect.Within(t, "peak", list.Ends[59].Temperature, fmt.Sprint(train.Peak.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "the highest of all", list.Peak, fmt.Sprint(train.Peak.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "valley", list.Asked[0].Temperature, fmt.Sprint(train.Valley.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "energy", list.Energy, "6 J", "1e-12 J") // 60 · 20 W · 5 ms
	expect.Within(t, "mean", train.Mean, "58 °C", "1e-9 K")   // 50 + 20 · 0.25 · 1.6

	in.Duration = in.Period
	constant := must(PulseTrain(in))(t)
	expect.Within(t, "constant: peak", constant.Peak, "82 °C", "1e-9 K") // 50 + 20 · 1.6
	expect.Within(t, "constant: swing", constant.Swing, "0 K", "1e-9 K")
	in.Period, in.Duration = q("2 ns"), q("0.5 ns")
	fast := must(PulseTrain(in))(t)
	expect.Within(t, "fast: peak", fast.Peak, "58 °C", "1e-4 K")
	in.Period, in.Duration = q("1 h"), q("5 ms")
	slow, single := must(PulseTrain(in))(t), must(Pulse(PulseInputs{Network: network, Reference: q("50 °C"), Power: q("20 W"), Duration: q("5 ms"), After: q("20 ms")}))(t)
	expect.Within(t, "slow: peak", slow.Peak, fmt.Sprint(single.Peak.SI()-273.15, " °C"), "1e-9 K")
	expect.Within(t, "slow: valley", slow.Valley, "50 °C", "1e-9 K")
	two := must(Pulses(PulsesInputs{Network: network, Reference: q("50 °C"), Pulses: []TimedPulse{{Duration: q("5 ms"), Power: q("20 W")}}, Times: []units.Quantity{q("25 ms")}}))(t)
	expect.Within(t, "later", two.Asked[0].Temperature, fmt.Sprint(single.Later.SI()-273.15, " °C"), "1e-9 K")
}

// LargestPulse is Pulse and PulseTrain the other way round.
func TestLargestPulseBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		network := stagesOf([]float64{rapid.Float64Range(0.1, 10).Draw(r, "R1"), rapid.Float64Range(0.1, 10).Draw(r, "R2")}, []float64{1e-3, 0.1})
		period := q("1 s").Mul(units.Number(rapid.Float64Range(1e-4, 1).Draw(r, "period")))
		duration := period.Mul(units.Number(rapid.Float64Range(0.01, 1).Draw(r, "duty")))
		in := LargestPulseInputs{Network: network, Reference: q("60 °C"), Limit: q("150 °C"), Duration: duration, Period: period, Base: q("1 W")}
		most, err := LargestPulse(in)
		if err != nil {
			r.Fatal(err)
		}
		train, err := PulseTrain(PulseTrainInputs{Network: network, Reference: q("60 °C"), Power: most.Power, Duration: duration, Period: period, Base: q("1 W")})
		if err != nil || math.Abs(train.Peak.SI()-in.Limit.SI()) > 1e-9 {
			r.Fatal(train.Peak, err)
		}
		if train.Valley.SI() > train.Mean.SI()+1e-9 || train.Mean.SI() > train.Peak.SI()+1e-9 {
			r.Fatalf("valley %v, mean %v, peak %v", train.Valley, train.Mean, train.Peak)
		}
		in.Period, in.Base = units.Quantity{}, units.Quantity{}
		single, err := LargestPulse(in)
		if err != nil {
			r.Fatal(err)
		}
		pulse, err := Pulse(PulseInputs{Network: network, Reference: q("60 °C"), Power: single.Power, Duration: duration})
		if err != nil || math.Abs(pulse.Peak.SI()-in.Limit.SI()) > 1e-9 {
			r.Fatal(pulse.Peak, err)
		}
		if single.Power.SI() < most.Power.SI() {
			r.Fatalf("a single pulse may have %v, one of a train %v", single.Power, most.Power)
		}
	})
}

// The figure from the curve of a single pulse, against the exact train of the
// network that drew the curve.
func TestCurvePulseAgainstTheExactTrain(t *testing.T) {
	t.Parallel()
	networks := []Foster{
		stagesOf([]float64{0.7, 0.6, 0.3}, []float64{2e-3, 10e-3, 0.1}),
		stagesOf(tankR, tankC),
		stagesOf([]float64{.4892393, .5044556, .2857113, 2.5552}, []float64{4.3899e-3, 5.3108e-3, 1.4446e-3, 48.0549e-3}),
		stagesOf([]float64{1}, []float64{1e-2}),
	}
	worst := 0.0
	for _, network := range networks {
		var times, impedances []units.Quantity
		for x := -6.0; x <= 4; x += 0.02 {
			time := q("1 s").Mul(units.Number(math.Pow(10, x)))
			times = append(times, time)
			impedances = append(impedances, must(Impedance(network, time))(t))
		}
		curve := must(table.Curve(times, impedances))(t)
		curve = must(curve.Log(curve.Columns()...))(t)
		for _, period := range []string{"100 µs", "1 ms", "10 ms", "0.1 s", "1 s", "10 s"} {
			for _, duty := range []float64{0.01, 0.1, 0.3, 0.5, 0.8, 1} {
				in := PulseTrainInputs{Network: network, Reference: q("50 °C"), Power: q("1 W"), Period: q(period), Duration: q(period).Mul(units.Number(duty))}
				exact := must(PulseTrain(in))(t)
				read := must(CurvePulse(CurvePulseInputs{Curve: curve, Steady: exact.Steady, Reference: q("50 °C"), Limit: q("2000 °C"), Power: q("1 W"), Duration: in.Duration, Period: in.Period}))(t)
				miss := math.Abs(read.Impedance.SI()/exact.Highest.SI() - 1)
				worst = max(worst, miss)
				if duty == 1 && miss > 1e-3 {
					t.Errorf("%s at a duty of one: %v, exact %v", period, read.Impedance, exact.Highest)
				}
				expect.Within(t, "what is left and what is used", read.Margin.Add(read.Rise), "1950 K", "1e-9 K")
				expect.Within(t, "the largest power", read.LargestPower.Mul(read.Impedance), "1950 K", "1e-9 K")
			}
		}
	}
	if worst > 0.1 || worst < 0.01 {
		t.Errorf("the curve misses by up to %.1f %%", 100*worst)
	}
	curve := must(table.Text("time [s] log, impedance [K/W] log\n1e-4, 0.01\n1e-2, 1"))(t)
	single := must(CurvePulse(CurvePulseInputs{Curve: curve, Reference: q("25 °C"), Limit: q("150 °C"), Power: q("100 W"), Duration: q("1 ms")}))(t)
	expect.Within(t, "between two rows of two decades", single.Impedance, "0.1 K/W", "1e-12 K/W") // the geometric mean
	expect.Within(t, "its peak", single.Peak, "35 °C", "1e-9 K")
	expect.Within(t, "its margin", single.Margin, "115 K", "1e-9 K")
	expect.Within(t, "its largest power", single.LargestPower, "1250 W", "1e-9 W")
}
