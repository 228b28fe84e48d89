package stepdown

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// drawStage draws a stage that works, of our own making.
func drawStage(t *rapid.T) Stage {
	size := func(name string, low, high float64) float64 {
		return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
	}
	out := size("output", 0.6, 24)
	load := size("load", 1e-3, 20)
	s := Stage{
		Output: of(out, "V"), Load: of(load, "A"), Frequency: of(size("frequency", 5e4, 3e6), "Hz"), Inductance: of(size("inductance", 1e-7, 1e-3), "H"),
		HighSwitch: of(size("high", 1e-4, 0.1)/load, "Ω"), Winding: of(size("winding", 1e-4, 0.1)/load, "Ω"),
	}
	s.Input = of(out*size("ratio", 1.05, 20)+0.2, "V")
	if rapid.Bool().Draw(t, "synchronous") {
		s.LowSwitch = of(size("low", 1e-4, 0.1)/load, "Ω")
		s.Forced = rapid.Bool().Draw(t, "forced")
	} else {
		s.Diode = of(size("diode", 0.1, 1), "V")
	}
	return s
}

// In any working stage: the volt-seconds of the inductance are balanced, the
// load is the mean of the inductor's current, switch and diode share it, the
// squares of the parts add up, and what comes in goes out or heats.
func TestIdentities(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		d, err := Duty(s)
		if err != nil {
			t.Fatal(err)
		}
		i, err := Currents(s)
		if err != nil {
			t.Fatal(err)
		}
		p, err := Losses(LossesInputs{Stage: s, RiseTime: q("5 ns"), FallTime: q("8 ns"), GateCharge: q("4 nC"), Quiescent: q("1 mA"), Core: q("20 mW"), InputESR: q("3 mΩ"), OutputESR: q("2 mΩ")})
		if err != nil {
			t.Fatal(err)
		}
		same := func(name string, a, b units.Quantity) {
			if x, y := a.SI(), b.SI(); a.Dim() != b.Dim() || math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
				t.Fatalf("%s: %v and %v", name, x, y)
			}
		}
		sum := func(x, y units.Quantity) units.Quantity { return x.Add(y) }
		square := func(x units.Quantity) units.Quantity { return x.Mul(x) }
		same("volt-seconds", d.OnVoltage.Mul(i.OnShare), d.OffVoltage.Mul(i.Conduction.Sub(i.OnShare)))
		same("mean and load", i.Conduction.Mul(i.Mean), s.Load)
		same("averages", sum(i.HighAverage, i.LowAverage), s.Load)
		same("squares of switch and diode", sum(square(i.HighRMS), square(i.LowRMS)), square(i.InductorRMS))
		same("squares of load and capacitor", sum(square(s.Load), square(i.OutputCapacitorRMS)), square(i.InductorRMS))
		same("squares of input", sum(square(i.HighAverage), square(i.InputCapacitorRMS)), square(i.HighRMS))
		same("input power", p.InputPower, s.Input.Mul(p.InputCurrent))
		same("balance", p.InputPower, sum(p.OutputPower, p.Total))
		parts := p.HighConduction.Add(p.LowConduction).Add(p.Diode).Add(p.Switching).Add(p.Node).Add(p.Recovery).Add(p.DeadTime).Add(p.Gate).Add(p.Quiescent).Add(p.Winding).Add(p.Core).Add(p.Capacitors)
		same("parts", parts, p.Total)
		if e := p.Efficiency.SI(); !(0 < e && e < 1) {
			t.Fatalf("efficiency %v", e)
		}
		if f := i.Conduction.SI(); !s.Forced && (f < 1) != (s.Load.SI() < i.Boundary.SI()) {
			t.Fatalf("conduction %v at %v of the boundary", f, s.Load.Div(i.Boundary))
		}
	})
}

// At the boundary both sides agree: a load a hair below and a hair above it
// give the same result, within that hair; Forced changes nothing from there
// up.
func TestBoundary(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		s.HighSwitch, s.Winding = units.Quantity{}, units.Quantity{} // so that the boundary does not move with the load
		if !s.LowSwitch.Same(units.Quantity{}) {
			s.LowSwitch = q("0 Ω")
		}
		s.Forced = false
		i, err := Currents(s)
		if err != nil {
			t.Fatal(err)
		}
		const hair = 1e-9
		results := func(load units.Quantity) []any {
			s := s
			s.Load = load
			c, err1 := Currents(s)
			o, err2 := OutputRipple(OutputRippleInputs{Stage: s, Capacitance: q("10 µF"), ESR: q("1 mΩ")})
			in, err3 := InputRipple(InputRippleInputs{Stage: s, Capacitance: q("10 µF"), ESR: q("1 mΩ")})
			for _, err := range []error{err1, err2, err3} {
				if err != nil {
					t.Fatal(err)
				}
			}
			return []any{c, o, in}
		}
		below := results(i.Boundary.Mul(units.Number(1 - hair)))
		above := results(i.Boundary.Mul(units.Number(1 + hair)))
		for k := range below {
			other := expect.Quantities(above[k])
			for name, x := range expect.Quantities(below[k]) {
				floor := math.Max(math.Abs(x.SI()), math.Abs(other[name].SI()))
				if name == "Valley" {
					floor = i.Boundary.SI()
				}
				if d := math.Abs(x.SI() - other[name].SI()); d > 10*hair*floor {
					t.Fatalf("%T.%s is %v below the boundary, %v above it", below[k], name, x.SI(), other[name].SI())
				}
			}
		}
	})
}

// What physics says about directions: with the input rising the duty falls
// and the ripple rises; with the load rising the peak rises; without drops and
// ripple nothing is lost.
func TestDirections(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		at := func(change func(*Stage)) CurrentsResult {
			s := s
			change(&s)
			i, err := Currents(s)
			if err != nil {
				t.Fatal(err)
			}
			return i
		}
		i := at(func(*Stage) {})
		higher := at(func(s *Stage) { s.Input = s.Input.Mul(units.Number(1.1)) })
		if !higher.Duty.Less(i.Duty) || !i.FullRipple.Less(higher.FullRipple) {
			t.Fatal("with a higher input the duty must fall and the ripple rise")
		}
		s.HighSwitch, s.LowSwitch, s.Diode, s.Winding = units.Quantity{}, units.Quantity{}, units.Quantity{}, units.Quantity{}
		// With drops a forced ripple far above the load grows a little instead.
		full, lighter := at(func(*Stage) {}), at(func(s *Stage) { s.Load = s.Load.Mul(units.Number(0.9)) })
		if !lighter.Peak.Less(full.Peak) {
			t.Fatal("with a lower load the peak must fall")
		}
		p, err := Losses(LossesInputs{Stage: s})
		if err != nil {
			t.Fatal(err)
		}
		if p.Total.SI() != 0 || p.Efficiency.SI() != 1 {
			t.Fatalf("without resistances %v is lost", p.Total)
		}
		if i.Duty.SI() <= s.Output.Div(s.Input).SI() {
			t.Fatal("drops must lengthen the duty")
		}
	})
}

// What is found does what was wanted when it is fed back.
func TestBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		ok := func(err error) {
			if err != nil {
				t.Fatal(err)
			}
		}
		same := func(name string, a, b units.Quantity) {
			if x, y := a.SI(), b.SI(); math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
				t.Fatalf("%s: %v and %v", name, x, y)
			}
		}
		ratio := of(rapid.Float64Range(0.05, 1.9).Draw(t, "ratio wanted"), "")
		without := s
		without.Inductance = units.Quantity{}
		l, err := Inductance(InductanceInputs{Stage: without, Ratio: ratio})
		ok(err)
		s.Inductance = l.Inductance
		i, err := Currents(s)
		ok(err)
		same("ripple", i.Ripple, ratio.Mul(s.Load))
		c, err := OutputCapacitor(OutputCapacitorInputs{Stage: s, Capacitive: q("10 mV"), Resistive: q("7 mV")})
		ok(err)
		r, err := OutputRipple(OutputRippleInputs{Stage: s, Capacitance: c.Capacitance, ESR: c.ESR})
		ok(err)
		same("output ripple", r.Total, q("17 mV"))
		same("output charge", r.Charge, i.Ripple.Div(s.Frequency).Div(units.Number(8))) // the data sheets' form
		ci, err := InputCapacitor(InputCapacitorInputs{Stage: s, Capacitive: q("100 mV"), Resistive: q("70 mV")})
		ok(err)
		ri, err := InputRipple(InputRippleInputs{Stage: s, Capacitance: ci.Capacitance, ESR: ci.ESR})
		ok(err)
		same("input ripple", ri.Total, q("170 mV"))
		step := s.Load.Mul(units.Number(0.8))
		cs, err := StepCapacitor(StepCapacitorInputs{Stage: s, Step: step, Undershoot: q("90 mV"), Overshoot: q("90 mV"), Delay: q("1 µs")})
		ok(err)
		rs, err := LoadStep(LoadStepInputs{Stage: s, Step: step, Capacitance: cs.Capacitance, Delay: q("1 µs")})
		ok(err)
		same("worse of both deviations", units.Max(rs.Undershoot, rs.Overshoot), q("90 mV"))
		tm, err := Timing(TimingInputs{Stage: s, LeastOn: q("10 ns"), LeastOff: q("20 ns")})
		ok(err)
		for name, input := range map[string]units.Quantity{"LeastInput": tm.LeastInput, "MostInput": tm.MostInput} {
			s := s
			s.Input = input
			d, err := Duty(s)
			if err != nil {
				continue // at 10 ns a low frequency needs no more than its output
			}
			want := tm.MostDuty
			if name == "MostInput" {
				want = q("10 ns").Mul(s.Frequency)
			}
			same("duty at "+name, d.Duty, want)
		}
	})
}

// The rest, by arithmetic written out.
func TestByHand(t *testing.T) {
	t.Parallel()
	// 5.5 V/(12 V − 5 V + 5.5 V) = 44 %.
	d, err := Duty(Stage{Input: q("12 V"), Output: q("5 V"), Load: q("3 A"), Frequency: q("500 kHz"), Diode: q("0.5 V")})
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "44 %", 1e-12)
	expect.Near(t, "Ideal", d.Ideal, "41.6666666667 %", 1e-9)
	// On: 24 − 5 − 1.5 · (0.15 + 0.06) = 18.685 V; off: 5 + 1.5 · (0.09 + 0.06) = 5.225 V.
	d, err = Duty(lossy())
	expect.Near(t, "OnVoltage", expect.Must(t, d, err).OnVoltage, "18.685 V", 1e-12)
	expect.Near(t, "OffVoltage", d.OffVoltage, "5.225 V", 1e-12)
	expect.Near(t, "Duty", d.Duty, "21.8527812631 %", 1e-9) // 5.225/23.91

	// 0.5 nH · (18.685 + 5.225) V/22 µH.
	r, err := OutputRipple(OutputRippleInputs{Stage: lossy(), Capacitance: q("44 µF"), ESL: q("0.5 nH")})
	expect.Near(t, "Inductive", expect.Must(t, r, err).Inductive, "0.543409090909 mV", 1e-9)

	// 32 V · 60 ns/22 µH = 87.2727 mA of overrun.
	stage := lossy()
	stage.Input = q("32 V")
	l, err := CurrentLimit(CurrentLimitInputs{Stage: stage, Limit: q("3.1 A"), Delay: q("60 ns"), Saturation: q("4 A")})
	expect.Near(t, "LargestPeak", expect.Must(t, l, err).LargestPeak, "3.18727272727 A", 1e-9)
	expect.Near(t, "SaturationMargin", l.SaturationMargin, "0.81272727273 A", 1e-9)
	expect.Near(t, "SaturationShare", l.SaturationShare, "20.3181818182 %", 1e-9)
	expect.Near(t, "the margin of the peak", l.PeakMargin.Add(l.Peak), "3.1 A", 1e-12)

	// (10 nC + 1 µA/400 kHz)/100 mV = 100.025 nF; 3 · 2 Ω · that = 600.15 ns.
	b, err := Bootstrap(BootstrapInputs{GateCharge: q("10 nC"), Leakage: q("1 µA"), Frequency: q("400 kHz"), Droop: q("100 mV"), Resistance: q("2 Ω")})
	expect.Near(t, "Capacitance", expect.Must(t, b, err).Capacitance, "100.025 nF", 1e-9)
	expect.Near(t, "Refresh", b.Refresh, "600.15 ns", 1e-9)

	// 8 V at 1.5 A through a diode of 0.5 V, 22 µH: on-time 5.5/(3 + 5.5)/400 kHz.
	tm, err := Timing(TimingInputs{Stage: Stage{Input: q("8 V"), Output: q("5 V"), Load: q("1.5 A"), Frequency: q("400 kHz"), Inductance: q("22 µH"), Diode: q("0.5 V")}, LeastOn: q("100 ns"), LeastOff: q("150 ns")})
	expect.Near(t, "OnTime", expect.Must(t, tm, err).OnTime, "1.61764705882 µs", 1e-9)
	expect.Near(t, "OffMargin", tm.OffMargin, "732.352941176 ns", 1e-9) // 3/8.5/400 kHz − 150 ns
	expect.Near(t, "MostDuty", tm.MostDuty, "94 %", 1e-12)
	expect.Near(t, "LeastInput", tm.LeastInput, "5.35106382979 V", 1e-9) // 5.5/0.94 − 0.5
	expect.Near(t, "MostInput", tm.MostInput, "137 V", 1e-9)             // 5.5/0.04 − 0.5
}
