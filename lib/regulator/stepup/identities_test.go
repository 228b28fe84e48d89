package stepup

import (
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// drawStage draws a stage that works, of our own making.
func drawStage(t *rapid.T) Stage {
	size := func(name string, low, high float64) float64 {
		return math.Exp(rapid.Float64Range(math.Log(low), math.Log(high)).Draw(t, name))
	}
	in := size("input", 0.6, 24)
	ratio := size("ratio", 1.03, 10)
	load := size("load", 1e-3, 5)
	// Drops of up to a few percent of the input at the inductor's current.
	ohms := func(name string) units.Quantity { return of(size(name, 1e-4, 0.03)*in/(ratio*load), "Ω") }
	s := Stage{
		Input: of(in, "V"), Output: of(in*ratio, "V"), Load: of(load, "A"), Frequency: of(size("frequency", 5e4, 3e6), "Hz"), Inductance: of(size("inductance", 1e-7, 1e-3), "H"),
		Switch: ohms("switch"), Sense: ohms("sense"), Winding: ohms("winding"),
	}
	if rapid.Bool().Draw(t, "synchronous") {
		s.Rectifier = ohms("rectifier")
		s.Forced = rapid.Bool().Draw(t, "forced")
	} else {
		s.Diode = of(size("diode", 0.1, 1), "V")
	}
	return s
}

func same(t *rapid.T, name string, a, b units.Quantity) {
	t.Helper()
	if x, y := a.SI(), b.SI(); a.Dim() != b.Dim() || math.Abs(x-y) > 1e-9*math.Max(math.Abs(x), math.Abs(y)) {
		t.Fatalf("%s: %v and %v", name, x, y)
	}
}

func square(x units.Quantity) units.Quantity { return x.Mul(x) }

// In any working stage: the volt-seconds of the inductance are balanced, the
// load is the mean of the rectifier's current, switch and rectifier share the
// inductor's, the squares of the parts add up, the mean current brings in what
// the load and the drops take, and what comes in goes out or heats.
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
		offShare := i.Conduction.Sub(i.OnShare)
		same(t, "volt-seconds", d.OnVoltage.Mul(i.OnShare), d.OffVoltage.Mul(offShare))
		same(t, "mean and flow", i.Conduction.Mul(i.Flowing), i.Mean)
		same(t, "rectifier and load", offShare.Mul(i.Flowing), s.Load)
		same(t, "averages", i.SwitchAverage.Add(i.RectifierAverage), i.Mean)
		same(t, "squares of switch and rectifier", square(i.SwitchRMS).Add(square(i.RectifierRMS)), square(i.InductorRMS))
		same(t, "squares of mean and input capacitor", square(i.Mean).Add(square(i.InputCapacitorRMS)), square(i.InductorRMS))
		same(t, "squares of load and output capacitor", square(s.Load).Add(square(i.OutputCapacitorRMS)), square(i.RectifierRMS))
		// Power of the mean: what the mean current meets on its way.
		share := units.Number(1).Sub(d.Duty)
		met := s.Output.Mul(s.Load).Add(d.RectifierDrop.Mul(d.Mean).Mul(share)).Add(d.SwitchDrop.Mul(d.Mean).Mul(d.Duty)).Add(d.WindingDrop.Mul(d.Mean))
		same(t, "power of the mean", s.Input.Mul(d.Mean), met)
		same(t, "input power", p.InputPower, s.Input.Mul(p.InputCurrent))
		same(t, "balance", p.InputPower, p.OutputPower.Add(p.Total))
		parts := p.SwitchConduction.Add(p.RectifierConduction).Add(p.Diode).Add(p.Switching).Add(p.Node).Add(p.Recovery).Add(p.DeadTime).Add(p.Gate).Add(p.Quiescent).Add(p.Sense).Add(p.Winding).Add(p.Core).Add(p.Capacitors)
		same(t, "parts", parts, p.Total)
		if e := p.Efficiency.SI(); !(0 < e && e < 1) {
			t.Fatalf("efficiency %v", e)
		}
		if f := i.Conduction.SI(); !s.Forced && (f < 1) != (s.Load.SI() < i.Boundary.SI()) && math.Abs(s.Load.SI()/i.Boundary.SI()-1) > 1e-12 {
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
		var none units.Quantity
		s.Switch, s.Sense, s.Winding = none, none, none // so that the boundary does not move with the load
		if !s.Rectifier.Same(none) {
			s.Rectifier = q("0 Ω")
		}
		s.Forced = false
		i, err := Currents(s)
		if err != nil {
			t.Fatal(err)
		}
		const hair = 1e-9
		results := func(load units.Quantity, forced bool) []any {
			s := s
			s.Load, s.Forced = load, forced
			c, err1 := Currents(s)
			o, err2 := OutputRipple(OutputRippleInputs{Stage: s, Capacitance: q("10 µF"), ESR: q("1 mΩ")})
			in, err3 := InputRipple(InputRippleInputs{Stage: s, Capacitance: q("10 µF"), ESR: q("1 mΩ")})
			l, err4 := CurrentLimit(CurrentLimitInputs{Stage: s, Limit: i.FullRipple.Mul(units.Number(1 + hair)), Saturation: q("1 A")})
			for _, err := range []error{err1, err2, err3, err4} {
				if err != nil {
					t.Fatal(err)
				}
			}
			return []any{c, o, in, l}
		}
		agree := func(a, b []any) {
			for k := range a {
				other := expect.Quantities(b[k])
				for name, x := range expect.Quantities(a[k]) {
					floor := math.Max(math.Abs(x.SI()), math.Abs(other[name].SI()))
					switch name {
					case "Valley":
						floor = i.Boundary.SI()
					case "PeakMargin":
						floor = i.FullRipple.SI()
					}
					if d := math.Abs(x.SI() - other[name].SI()); d > 50*hair*floor {
						t.Fatalf("%T.%s is %v on one side of the boundary, %v on the other", a[k], name, x.SI(), other[name].SI())
					}
				}
			}
		}
		above := results(i.Boundary.Mul(units.Number(1+hair)), false)
		agree(results(i.Boundary.Mul(units.Number(1-hair)), false), above)
		if s.Diode.Same(none) {
			agree(above, results(i.Boundary.Mul(units.Number(1+hair)), true))
		}
	})
}

// What physics says about directions.
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
		higher := at(func(s *Stage) { s.Input = s.Input.Mul(units.Number(1.02)) })
		if !higher.Duty.Less(i.Duty) || !higher.Mean.Less(i.Mean) {
			t.Fatal("with a higher input duty and mean current must fall")
		}
		if !s.Forced && !higher.Peak.Less(i.Peak) {
			t.Fatal("with a higher input the peak must fall")
		}
		lighter := at(func(s *Stage) { s.Load = s.Load.Mul(units.Number(0.9)) })
		if !s.Forced && !lighter.Peak.Less(i.Peak) {
			t.Fatal("with a lower load the peak must fall")
		}
		larger := at(func(s *Stage) { s.Inductance = s.Inductance.Mul(units.Number(1.1)) })
		if !larger.Ripple.Less(i.Ripple) || !larger.Boundary.Less(i.Boundary) {
			t.Fatal("with a larger inductance ripple and boundary must fall")
		}
		z := func(change func(*Stage)) units.Quantity {
			s := s
			change(&s)
			z, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: s})
			if err != nil {
				t.Fatal(err)
			}
			return z.Zero
		}
		zero := z(func(*Stage) {})
		if !z(func(s *Stage) { s.Inductance = s.Inductance.Mul(units.Number(1.1)) }).Less(zero) || !zero.Less(z(func(s *Stage) { s.Load = s.Load.Mul(units.Number(0.9)) })) || !zero.Less(z(func(s *Stage) { s.Input = s.Input.Mul(units.Number(1.02)) })) {
			t.Fatal("the zero must fall with the inductance and the load, and rise with the input")
		}
		if !s.Output.Sub(s.Input).Div(s.Output).Less(i.Duty) {
			t.Fatal("drops must lengthen the duty")
		}
		var none units.Quantity
		s.Switch, s.Sense, s.Rectifier, s.Diode, s.Winding = none, none, none, none, none
		p, err := Losses(LossesInputs{Stage: s})
		if err != nil {
			t.Fatal(err)
		}
		if p.Total.SI() != 0 || p.Efficiency.SI() != 1 {
			t.Fatalf("without resistances %v is lost", p.Total)
		}
		same(t, "the zero of the textbooks", z(func(*Stage) {}), s.Input.Mul(s.Input).Div(s.Output.Mul(s.Load)).Div(units.Number(2).Mul(units.Pi).Mul(s.Inductance)))
	})
}

// What is found does what was wanted when it is fed back.
func TestBackAndForth(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		s := drawStage(t)
		ok := func(err error) {
			if err != nil {
				t.Helper()
				t.Fatal(err)
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
		same(t, "ripple", i.Ripple, ratio.Mul(i.Mean))
		c, err := OutputCapacitor(OutputCapacitorInputs{Stage: s, Capacitive: q("10 mV"), Resistive: q("7 mV")})
		ok(err)
		r, err := OutputRipple(OutputRippleInputs{Stage: s, Capacitance: c.Capacitance, ESR: c.ESR})
		ok(err)
		same(t, "output ripple", r.Total, q("17 mV"))
		ci, err := InputCapacitor(InputCapacitorInputs{Stage: s, Capacitive: q("100 mV"), Resistive: q("70 mV")})
		ok(err)
		ri, err := InputRipple(InputRippleInputs{Stage: s, Capacitance: ci.Capacitance, ESR: ci.ESR})
		ok(err)
		same(t, "input ripple", ri.Total, q("170 mV"))
		same(t, "input charge", ri.Charge, i.Ripple.Div(s.Frequency).Div(units.Number(8))) // the data sheets' form
		step := s.Load.Mul(units.Number(0.8))
		cs, err := StepCapacitor(StepCapacitorInputs{Stage: s, Step: step, Undershoot: q("90 mV"), Overshoot: q("90 mV")})
		ok(err)
		rs, err := LoadStep(LoadStepInputs{Stage: s, Step: step, Capacitance: cs.Capacitance})
		ok(err)
		same(t, "worse of both deviations", units.Max(rs.Undershoot, rs.Overshoot), q("90 mV"))

		// A limit just above the peak lets this load through, from this input.
		limit, err := CurrentLimit(CurrentLimitInputs{Stage: s, Limit: i.Peak, Saturation: q("1 A")})
		ok(err)
		same(t, "MostLoad", limit.MostLoad, s.Load)
		same(t, "LeastInput", limit.LeastInput, s.Input)
		half, err := CurrentLimit(CurrentLimitInputs{Stage: s, Limit: i.Peak.Mul(units.Number(0.3)), Saturation: q("1 A")})
		ok(err)
		if half.MostLoad.SI() > 0 { // more than the ripple that is forced
			s := s
			s.Load = half.MostLoad
			i, err := Currents(s)
			ok(err)
			same(t, "peak of the lower limit", i.Peak, half.Peak.Add(half.PeakMargin))
		}

		for _, most := range []float64{0.6, 0.95} {
			tm, err := Timing(TimingInputs{Stage: s, LeastOn: q("10 ns"), MostDuty: of(most, "")})
			ok(err)
			for name, input := range map[string]units.Quantity{"LeastInput": tm.LeastInput, "MostInput": tm.MostInput} {
				s := s
				s.Input = input
				d, err := Duty(s)
				if err != nil {
					continue // above the output, or where more duty brings less
				}
				want := tm.MostDuty
				if name == "MostInput" {
					want = q("10 ns").Mul(s.Frequency)
				}
				if name == "LeastInput" && d.Duty.SI() < want.SI()*(1-1e-6) {
					continue // more duty brings less from there on
				}
				if a, b := d.Duty.SI(), want.SI(); math.Abs(a-b) > 1e-6*b {
					t.Fatalf("duty at %s: %v and %v", name, a, b)
				}
			}
		}
	})
}

// In continuous conduction the plants are those of the averaged circuit,
// solved here at single frequencies with complex numbers. With current mode
// the mean lies below the peak by half the ripple, and the peak below what the
// control asks for by the slope.
func TestPlantsAgainstTheAveragedCircuit(t *testing.T) {
	t.Parallel()
	const in, out, load, l, c, esr, f = 5.0, 12.0, 0.5, 10e-6, 47e-6, 5e-3, 1e6
	stage := Stage{Input: of(in, "V"), Output: of(out, "V"), Load: of(load, "A"), Frequency: of(f, "Hz"), Inductance: of(l, "H")}
	v, err := VoltageMode(VoltageModeInputs{Stage: stage, Capacitance: of(c, "F"), ESR: of(esr, "Ω"), Ramp: q("1 V")})
	expect.Must(t, v, err)
	i, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: of(c, "F"), ESR: of(esr, "Ω"), PowerStage: q("1 A/V"), Slope: q("1 A/µs")})
	expect.Must(t, i, err)
	share, mean := in/out, load*out/in
	for _, hertz := range []float64{10, 300, 2e3, 8e3, 20e3} {
		s := complex(0, 2*math.Pi*hertz)
		capacitor := complex(esr, 0) + 1/(s*c)
		impedance := 1 / (1/capacitor + complex(load/out, 0))
		// Small changes: s·l·i = out·d − share·v; v = impedance · (share·i − mean·d).
		// With d = 1: v · (1 + impedance·share²/(s·l)) = impedance · (share·out/(s·l) − mean).
		voltage := impedance * (complex(share*out, 0)/(s*l) - complex(mean, 0)) / (1 + impedance*complex(share*share, 0)/(s*l))
		// With i = 1 − below·d: i·(1 + below·s·l/out) = 1 − below·share·v/out, and
		// v = impedance·(share·i − mean·(s·l·i + share·v)/out).
		const below = (1e6 + in/l/2) / f
		byCurrent := complex(share, 0) - complex(mean/out, 0)*s*l
		perVoltage := byCurrent / (1 + complex(below/out, 0)*s*l)
		current := impedance * perVoltage / (1 + impedance*(complex(mean*share/out, 0)+perVoltage*complex(below*share/out, 0)))
		for _, x := range []struct {
			name      string
			got, want complex128
			limit     float64
		}{
			{"voltage mode", response(t, v.Plant, hertz), voltage, 0.01},
			{"current mode", response(t, i.Plant, hertz), current, 0.04}, // the sampling of the plant turns a little less
		} {
			if d := x.got/x.want - 1; math.Hypot(real(d), imag(d)) > x.limit {
				t.Errorf("%s at %v Hz is %v, the circuit %v", x.name, hertz, x.got, x.want)
			}
		}
	}
}

func response(t *testing.T, plant loop.Plant, hertz float64) complex128 {
	r, err := loop.Response(plant, loop.Amplifier{Upper: q("10 kΩ"), Capacitor: q("1 nF")}, of(hertz, "Hz"))
	expect.Must(t, r, err)
	return cmplx.Rect(math.Pow(10, r.PlantGain.SI()/20), r.PlantPhase.SI())
}

// Below the boundary the gain at low frequency is what a slightly larger
// control voltage makes of the exact steady state: V/Vg = (1 + √(1 +
// 4D²/K))/2 with K = 2L/(R · T) (Erickson and Maksimović, section 5.3).
func TestPlantsBelowTheBoundary(t *testing.T) {
	t.Parallel()
	const in, l, r, f, c = 5.0, 10e-6, 1000.0, 200e3, 22e-6
	output := func(share float64) float64 { return in * (1 + math.Sqrt(1+4*share*share*r/(2*l*f))) / 2 }
	const share, hair = 0.2, 1e-6
	out := output(share)
	stage := Stage{Input: of(in, "V"), Output: of(out, "V"), Load: of(out/r, "A"), Frequency: of(f, "Hz"), Inductance: of(l, "H")}
	slope := (output(share+hair) - output(share-hair)) / (2 * hair)
	v, err := VoltageMode(VoltageModeInputs{Stage: stage, Capacitance: of(c, "F"), Ramp: q("2 V")})
	expect.Must(t, v, err)
	expect.Near(t, "voltage Gain", v.Gain, of(slope/2, "").Text(12), 1e-8)
	// 0.3 A/V and 0.2 A/µs: the share is on where the peak, 0.5 A/µs · share/f,
	// and the slope meet the control.
	i, err := CurrentMode(CurrentModeInputs{Stage: stage, Capacitance: of(c, "F"), PowerStage: q("0.3 A/V"), Slope: q("0.2 A/µs")})
	expect.Must(t, i, err)
	expect.Near(t, "current Gain", i.Gain, of(slope*0.3*f/0.7e6, "").Text(12), 1e-8)
	// Energy: C·v·dv/dt = power in − v²/R, and the power in, f·L·peak²/2 ·
	// v/(v − Vg), falls with v: the pole is that of both.
	conductance := 1/r + out/r/(out-in)
	expect.Near(t, "Pole", i.Pole, of(conductance/(2*math.Pi*c), "Hz").Text(12), 1e-8)
}
