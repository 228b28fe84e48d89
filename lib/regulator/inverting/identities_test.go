package inverting

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
	out, load := size("output", 0.6, 48), size("load", 1e-3, 10)
	s := Stage{
		Input: of(out*size("ratio", 0.2, 20)+0.5, "V"), Output: of(-out, "V"), Load: of(load, "A"),
		Frequency: of(size("frequency", 5e4, 3e6), "Hz"), Inductance: of(size("inductance", 1e-7, 1e-3), "H"),
		Switch: of(size("switch", 1e-4, 0.02)/load, "Ω"), Winding: of(size("winding", 1e-4, 0.02)/load, "Ω"),
	}
	if rapid.Bool().Draw(t, "synchronous") {
		s.Rectifier = of(size("rectifier", 1e-4, 0.05)/load, "Ω")
		s.Forced = rapid.Bool().Draw(t, "forced")
	} else {
		s.Diode = of(size("diode", 0.1, 1), "V")
	}
	if rapid.Bool().Draw(t, "SEPIC") {
		s.SEPIC, s.Output = true, of(out, "V")
		s.SecondWinding = of(size("second winding", 1e-4, 0.02)/load, "Ω")
		s.Coupled = rapid.Bool().Draw(t, "coupled")
		if !s.Coupled {
			s.Second = of(size("second", 1e-7, 1e-3), "H")
		}
	}
	return s
}

// same demands that two values are one but for rounding.
func same(t *rapid.T, name string, a, b units.Quantity) {
	if x, y := a.SI(), b.SI(); a.Dim() != b.Dim() || math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
		t.Fatalf("%s: %v and %v", name, x, y)
	}
}

func fine(t *rapid.T, err error) {
	if err != nil {
		t.Fatal(err)
	}
}

// In any working stage: volt-seconds and charges are balanced, the rectifier
// passes the load on, the squares of the parts add up, and what comes in goes
// out or heats.
func TestIdentities(t *testing.T) {
	t.Parallel()
	sum := func(x, y units.Quantity) units.Quantity { return x.Add(y) }
	square := func(x units.Quantity) units.Quantity { return x.Mul(x) }
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		d, err := Duty(s)
		fine(t, err)
		i, err := Currents(s)
		fine(t, err)
		same(t, "volt-seconds", d.OnVoltage.Mul(i.OnShare), d.OffVoltage.Mul(i.OffShare))
		same(t, "the balance of the quadratic", d.OffShare, s.Load.Div(d.Current))
		same(t, "shares", sum(i.OnShare, i.OffShare), i.Conduction)
		same(t, "rectifier and load", i.RectifierAverage, s.Load)
		same(t, "squares of switch and rectifier", sum(square(i.SwitchRMS), square(i.RectifierRMS)), square(i.RMS))
		same(t, "squares of load and capacitor", sum(square(s.Load), square(i.OutputCapacitorRMS)), square(i.RectifierRMS))
		in := LossesInputs{Stage: s, RiseTime: q("5 ns"), FallTime: q("8 ns"), GateCharge: q("4 nC"), Quiescent: q("1 mA"), Core: q("20 mW"), InputESR: q("3 mΩ"), OutputESR: q("2 mΩ")}
		if s.SEPIC {
			in.CouplingESR = q("4 mΩ")
			l, err := Inductors(s)
			fine(t, err)
			same(t, "averages of both inductors", sum(l.Mean, l.SecondMean), i.RMS.Mul(i.Conduction).Mul(i.Mean).Div(i.RMS))
			same(t, "ripples of both inductors", sum(l.Ripple, l.SecondRipple), i.Ripple)
			same(t, "peaks of both inductors", sum(l.Peak, l.SecondPeak), i.Peak)
			same(t, "input capacitor", l.AlternatingRMS, i.InputCapacitorRMS)
			// All of the first inductor's current that the switch does not take
			// goes through the coupling capacitor, and all of the second's.
			onMean := sum(l.SecondValley, l.SecondRipple.Mul(units.Number(0.5))).Mul(i.OnShare)
			offMean := sum(l.Valley, l.Ripple.Mul(units.Number(0.5))).Mul(i.OffShare).Add(l.Valley.Mul(units.Number(1).Sub(i.Conduction)))
			if x := onMean.Sub(offMean).SI(); math.Abs(x) > 1e-9*i.Peak.SI() {
				t.Fatalf("the coupling capacitor gains %v A", x)
			}
			if l.CouplingCharge.SI() <= 0 {
				t.Fatalf("coupling charge %v", l.CouplingCharge)
			}
		} else {
			same(t, "squares of input", sum(square(i.SwitchAverage), square(i.InputCapacitorRMS)), square(i.SwitchRMS))
		}
		p, err := Losses(in)
		fine(t, err)
		same(t, "input power", p.InputPower, s.Input.Mul(p.InputCurrent))
		same(t, "balance", p.InputPower, sum(p.OutputPower, p.Total))
		parts := p.SwitchConduction.Add(p.RectifierConduction).Add(p.Diode).Add(p.Switching).Add(p.Node).Add(p.Recovery).Add(p.DeadTime).Add(p.Gate).Add(p.Quiescent).Add(p.Winding).Add(p.Core).Add(p.Capacitors)
		same(t, "parts", parts, p.Total)
		if e := p.Efficiency.SI(); !(0 < e && e < 1) {
			t.Fatalf("efficiency %v", e)
		}
		if f := i.Conduction.SI(); !s.Forced && (f < 1) != (s.Load.SI() < i.Boundary.SI()) {
			t.Fatalf("conduction %v at %v of the boundary", f, s.Load.Div(i.Boundary))
		}
	})
}

// At the boundary both sides agree: a load a hair below and a hair above it
// give the same result, within that hair.
func TestBoundary(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		var none units.Quantity
		// So that the boundary does not move with the load.
		s.Switch, s.Winding, s.SecondWinding, s.Rectifier, s.Forced = none, none, none, none, false
		i, err := Currents(s)
		fine(t, err)
		const hair = 1e-9
		results := func(load units.Quantity) (list []any) {
			s := s
			s.Load = load
			for _, c := range calls {
				if c.sepic && !s.SEPIC || c.name == "CouplingResonance" || c.name == "Inrush" || c.name == "Stresses" || c.name == "Timing" || c.name == "CurrentLimit" || c.name == "CurrentMode" || c.name == "VoltageMode" || c.name == "LoadStep" || c.name == "StepCapacitor" {
					continue
				}
				r, err := c.call(s)
				fine(t, err)
				list = append(list, r)
			}
			return list
		}
		below, above := results(i.Boundary.Mul(units.Number(1-hair))), results(i.Boundary.Mul(units.Number(1+hair)))
		for k := range below {
			other := expect.Quantities(above[k])
			for name, x := range expect.Quantities(below[k]) {
				floor := math.Max(math.Abs(x.SI()), math.Abs(other[name].SI()))
				switch name {
				case "Valley", "SecondValley": // may be zero; the peak is twice the boundary over the off-share
					floor = i.Peak.SI() + i.FullRipple.SI()
				}
				if d := math.Abs(x.SI() - other[name].SI()); d > 20*hair*floor {
					t.Fatalf("%T.%s is %v below the boundary, %v above it", below[k], name, x.SI(), other[name].SI())
				}
			}
		}
	})
}

// What physics says about directions: with the input rising the duty and the
// mean current fall and the ripple rises; with the load rising the peak rises;
// drops lengthen the duty; without drops nothing is lost.
func TestDirections(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		at := func(change func(*Stage)) CurrentsResult {
			s := s
			change(&s)
			i, err := Currents(s)
			fine(t, err)
			return i
		}
		d, err := Duty(s)
		fine(t, err)
		if !d.Ideal.Less(d.Duty) {
			t.Fatal("drops must lengthen the duty")
		}
		i, higher := at(func(*Stage) {}), at(func(s *Stage) { s.Input = s.Input.Mul(units.Number(1.1)) })
		if !higher.Duty.Less(i.Duty) || !i.FullRipple.Less(higher.FullRipple) {
			t.Fatal("with a higher input the duty must fall and the ripple rise")
		}
		z, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: s})
		fine(t, err)
		s.Input = s.Input.Mul(units.Number(1.1))
		up, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: s})
		fine(t, err)
		if !z.Zero.Less(up.Zero) {
			t.Fatal("with a higher input the zero must rise")
		}
		var none units.Quantity
		s.Switch, s.Rectifier, s.Diode, s.Winding, s.SecondWinding = none, none, none, none, none
		full, lighter := at(func(*Stage) {}), at(func(s *Stage) { s.Load = s.Load.Mul(units.Number(0.9)) })
		if !lighter.Peak.Less(full.Peak) {
			t.Fatal("with a lower load the peak must fall")
		}
		p, err := Losses(LossesInputs{Stage: s})
		fine(t, err)
		if p.Total.SI() != 0 || p.Efficiency.SI() != 1 {
			t.Fatalf("without resistances %v is lost", p.Total)
		}
	})
}

// What is found does what was wanted when it is fed back.
func TestBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		ratio := of(rapid.Float64Range(0.05, 1.9).Draw(t, "ratio wanted"), "")
		var none units.Quantity
		s.Inductance, s.Second = none, none
		l, err := Inductance(InductanceInputs{Stage: s, Ratio: ratio})
		fine(t, err)
		s.Inductance = l.Inductance
		i, err := Currents(s)
		fine(t, err)
		same(t, "ripple", i.Ripple, ratio.Mul(l.Current))
		same(t, "mean", i.Mean, l.Current)
		c, err := OutputCapacitor(OutputCapacitorInputs{Stage: s, Capacitive: q("10 mV"), Resistive: q("7 mV")})
		fine(t, err)
		r, err := OutputRipple(OutputRippleInputs{Stage: s, Capacitance: c.Capacitance, ESR: c.ESR})
		fine(t, err)
		same(t, "output ripple", r.Total, q("17 mV"))
		if i.Valley.SI() > s.Load.SI() {
			same(t, "the data sheets' form of the charge", r.Charge, r.UsualCharge)
		}
		ci, err := InputCapacitor(InputCapacitorInputs{Stage: s, Capacitive: q("100 mV"), Resistive: q("70 mV")})
		fine(t, err)
		ri, err := InputRipple(InputRippleInputs{Stage: s, Capacitance: ci.Capacitance, ESR: ci.ESR})
		fine(t, err)
		same(t, "input ripple", ri.Total, q("170 mV"))
		step := s.Load.Mul(of(rapid.Float64Range(0.1, 1).Draw(t, "step"), ""))
		cs, err := StepCapacitor(StepCapacitorInputs{Stage: s, Step: step, Undershoot: q("90 mV"), Overshoot: q("90 mV")})
		fine(t, err)
		rs, err := LoadStep(LoadStepInputs{Stage: s, Step: step, Capacitance: cs.Capacitance})
		fine(t, err)
		same(t, "worse of both deviations", units.Max(rs.Undershoot, rs.Overshoot), q("90 mV"))
		if s.SEPIC {
			cc, err := CouplingCapacitor(CouplingCapacitorInputs{Stage: s, Capacitive: q("200 mV")})
			fine(t, err)
			rc, err := CouplingRipple(CouplingRippleInputs{Stage: s, Capacitance: cc.Capacitance})
			fine(t, err)
			same(t, "coupling ripple", rc.Total, q("200 mV"))
		}
		// The limit that is the peak lets the load through.
		m, err := CurrentLimit(CurrentLimitInputs{Stage: s, Limit: i.Peak, Saturation: q("1 kA")})
		fine(t, err)
		same(t, "most load", m.MostLoad, s.Load)
		// At the inputs that Timing finds the duty is its limit.
		tm, err := Timing(TimingInputs{Stage: s, LeastOn: q("10 ns"), MostDuty: of(0.5+i.Duty.SI()/2, "")})
		fine(t, err)
		for name, input := range map[string]units.Quantity{"LeastInput": tm.LeastInput, "MostInput": tm.MostInput} {
			s := s
			s.Input = input
			d, err := Duty(s)
			if err != nil {
				continue // where the drops do not allow so long a duty
			}
			want := tm.MostDuty
			if name == "MostInput" {
				want = q("10 ns").Mul(s.Frequency)
			}
			if d.Duty.SI() > want.SI()*(1+1e-9) {
				t.Fatalf("duty at %s is %v, want %v", name, d.Duty.SI(), want.SI())
			}
			if input.SI() > 1.01*d.LeastInput.SI() && name == "MostInput" {
				if x := d.Duty.SI(); math.Abs(x-want.SI()) > 1e-9*want.SI() {
					t.Fatalf("duty at MostInput is %v, want %v", x, want.SI())
				}
			}
		}
	})
}

// At LeastInput the balance has one solution, a hair below it none: there is
// no duty at which the mean voltage is zero.
func TestLeastInput(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		d, err := Duty(s)
		fine(t, err)
		load, size := s.Load.SI(), math.Abs(s.Output.SI())
		get := func(x units.Quantity) float64 { return x.SI() }
		on, r1, rect, diode := get(s.Switch), get(s.Winding), 0.0, 0.0
		if s.Diode.Same(units.Quantity{}) {
			rect = get(s.Rectifier)
		} else {
			diode = get(s.Diode)
		}
		// The most that a duty makes of the input, less what the output asks for.
		best := func(input float64) float64 {
			most := math.Inf(-1)
			for k := 1; k < 20000; k++ {
				x := float64(k) / 20000 // off-share
				i := load / x
				rise, fall := input-i*(on+r1), size+diode+i*(rect+r1)
				if s.SEPIC {
					rise, fall = input-i*on-i*(1-x)*r1, size+diode+i*rect+load*get(s.SecondWinding)
				}
				most = math.Max(most, (1-x)*rise-x*fall)
			}
			return most
		}
		least := d.LeastInput.SI()
		if least > 0.1*size { // where a sweep finds it
			if a, b := best(least*0.998), best(least*1.002); a > 0 || b < 0 {
				t.Fatalf("at %v V: %v below and %v above", least, a, b)
			}
		}
	})
}
