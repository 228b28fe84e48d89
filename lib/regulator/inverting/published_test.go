package inverting

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Source: SNVA962 (Texas Instruments, TPSM5601R5H, December 2020) table 2-1:
// 24 V, 1.5 A in the inductor without its ripple, efficiencies, duties and
// largest loads to three decimals. By hand: 5/(5 + 0.78 · 24) = 0.2108, 1.5 A ·
// 0.7892 = 1.184 A. SNVAA71 (TPSM63610, October 2023): 24 V to −5 V at 70 %
// with 8 A: 6.2 A (6.165).
func TestPublishedLargestLoad(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		output, efficiency float64
		limit, duty, load  string
		tolerance          float64
	}{
		{-2.5, 0.69, "1.5 A", "0.131", "1.303 A", 4e-3},
		{-3.3, 0.73, "1.5 A", "0.159", "1.262 A", 4e-3},
		{-5, 0.78, "1.5 A", "0.211", "1.184 A", 2e-3},
		{-12, 0.83, "1.5 A", "0.376", "0.936 A", 1e-3},
		{-15, 0.84, "1.5 A", "0.427", "0.860 A", 1e-3},
		{-5, 0.70, "8 A", "0.229", "6.2 A", 6e-3},
	} {
		// A large inductance, which has next to no ripple.
		stage := Stage{Input: q("24 V"), Output: of(test.output, "V"), Load: q("0.5 A"), Frequency: q("1 MHz"), Inductance: q("1 H"), Efficiency: of(test.efficiency, "")}
		d, err := Duty(stage)
		expect.Near(t, "Duty", expect.Must(t, d, err).Duty, test.duty, test.tolerance)
		l, err := CurrentLimit(CurrentLimitInputs{Stage: stage, Limit: q(test.limit), Saturation: q("10 A")})
		expect.Near(t, "MostLoad", expect.Must(t, l, err).MostLoad, test.load, test.tolerance)
		p, err := Losses(LossesInputs{Stage: stage})
		expect.Near(t, "Efficiency", expect.Must(t, p, err).Efficiency, of(test.efficiency, "").Text(9), 1e-9)
	}
}

// Sources: L7981 (STMicroelectronics, Doc ID 15182 p. 38): a part for 28 V
// makes −5 V of at most 23 V. L5980 (Doc ID 13003 p. 37): 18 V, 13 V. SLVA317B
// (Texas Instruments, 2012) p. 2: 60 V, −12 V, 48 V.
func TestPublishedMostInput(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ rating, output, input string }{{"28 V", "-5 V", "23 V"}, {"18 V", "-5 V", "13 V"}, {"60 V", "-12 V", "48 V"}} {
		v, err := Stresses(StressesInputs{Stage: Stage{Input: q("12 V"), Output: q(test.output), Load: q("1 A"), Frequency: q("1 MHz")}, Rating: q(test.rating)})
		expect.Near(t, "MostInput", expect.Must(t, v, err).MostInput, test.input, 1e-12)
	}
}

// Source: A5972D (STMicroelectronics, Doc ID 13956 p. 29): load 0.2 A, duty
// 0.706, switch current 0.7 A (0.68). It is printed for 12 V to −5 V, but its
// 5/(5 + 12) is 0.294: the printed result belongs to 5 V to −12 V, as in its
// example of the positive form.
func TestPublishedSwitchCurrent(t *testing.T) {
	t.Parallel()
	d, err := Duty(Stage{Input: q("5 V"), Output: q("-12 V"), Load: q("0.2 A"), Frequency: q("250 kHz")})
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "0.706", 1e-3)
	expect.Near(t, "Current", d.Current, "0.7 A", 3e-2)
	d, err = Duty(Stage{Input: q("12 V"), Output: q("-5 V"), Load: q("0.2 A"), Frequency: q("250 kHz")})
	expect.Near(t, "Duty as printed", expect.Must(t, d, err).Duty, "0.294", 1e-3)
}

// Source: TPS55340 SLVSBD4E, duty of the SEPIC: 68 % at 6 V, 41 % at 18 V (12 V
// and a diode of 0.5 V inferred: 12.5/18.5 = 0.676, 12.5/30.5 = 0.410).
func TestPublishedDutyOfSEPIC(t *testing.T) {
	t.Parallel()
	for input, duty := range map[string]string{"6 V": "68 %", "18 V": "41 %"} {
		d, err := Duty(Stage{Input: q(input), Output: q("12 V"), Load: q("1 A"), Frequency: q("500 kHz"), Diode: q("0.5 V"), SEPIC: true})
		expect.Near(t, "Duty at "+input, expect.Must(t, d, err).Duty, duty, 1e-2)
	}
}

// Source: Eaton, Inductor selection for SEPIC designs: 2.8 V to 4.5 V, 3.3 V,
// 1 A, 250 kHz, 90 %: duty 0.423 at 4.5 V, 40 % of ripple in the second
// inductor ask for 19 µH (22 µH chosen); with that first inductor 1.31 A RMS
// and 1.45 A peak at 2.8 V, second inductor 0.346 A of ripple and 1.17 A peak at
// 4.5 V. By hand: 4.5 V · 1.692 µs/22 µH = 0.346 A; 3.3 W/(0.9 · 2.8 V) = 1.31 A.
// The source has the efficiency in the current and not in the duty.
func TestPublishedInductorsOfSEPIC(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("4.5 V"), Output: q("3.3 V"), Load: q("1 A"), Frequency: q("250 kHz"), SEPIC: true}
	d, err := Duty(stage)
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "0.423", 1e-3)
	// Both inductors have 0.4 A of ripple then, so the switch 0.8 A.
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("0.8 A").Div(d.Current)})
	expect.Near(t, "Inductance", expect.Must(t, l, err).Inductance, "19 µH", 5e-3)
	stage.Inductance = q("22 µH")
	i, err := Inductors(stage)
	expect.Near(t, "SecondRipple", expect.Must(t, i, err).SecondRipple, "0.346 A", 1e-3)
	expect.Near(t, "SecondPeak", i.SecondPeak, "1.173 A", 1e-3)
	stage.Input, stage.Efficiency = q("2.8 V"), q("90 %")
	i, err = Inductors(stage)
	expect.Near(t, "RMS", expect.Must(t, i, err).RMS, "1.31 A", 3e-3)
	expect.Near(t, "Peak", i.Peak, "1.45 A", 5e-3)
}

// Sources: LT3758 (Linear Technology, 3758afd p. 22): two inductors of
// input/(0.5 · ΔI · f) · duty each; LT3759 (3759fc p. 21): input/(ΔI · f) · duty
// on one core, ΔI the ripple of the switch. Numbers ours: 8 V, 12 V, 450 kHz,
// ΔI 0.9 A: duty 0.6; 23.70 µH and 11.85 µH.
func TestPublishedHalfOnOneCore(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("8 V"), Output: q("12 V"), Load: q("1 A"), Frequency: q("450 kHz"), SEPIC: true}
	// Current is 1 A/0.4.
	two, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("36 %")})
	expect.Near(t, "two inductors", expect.Must(t, two, err).Inductance, "23.7037 µH", 1e-5)
	stage.Coupled = true
	one, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("36 %")})
	expect.Near(t, "one core", expect.Must(t, one, err).Inductance, "11.85185 µH", 1e-5)
	stage.Inductance = one.Inductance
	i, err := Inductors(stage)
	expect.Near(t, "ripple of each", expect.Must(t, i, err).Ripple, "0.45 A", 1e-9)
	expect.Near(t, "ripple of the other", i.SecondRipple, "0.45 A", 1e-9)
	// The same source: I² · R · duty in the switch, without ripple: 2.5² · 0.02 ·
	// 0.6 = 75 mW; with it 1 + 0.36²/12 times as much.
	stage.Switch = q("20 mΩ")
	p, err := Losses(LossesInputs{Stage: stage})
	expect.Near(t, "SwitchConduction", expect.Must(t, p, err).SwitchConduction, "75.81 mW", 3e-2)
}

// Source: AN-1484 (National Semiconductor, now Texas Instruments SNVA168),
// from memory: 3 V to 5.7 V, 3.3 V, 2 A, 330 kHz, diode 0.5 V: duty 0.56 at
// 3 V; ripple 0.88 A in each inductor asks for 5.8 µH; coupling capacitor
// 2 A · √(3.8/3) = 2.25 A, with 10 µF 2 A · 0.56/(10 µF · 330 kHz) = 0.34 V. It
// leaves the ripple out of the capacitor's current.
func TestPublishedCouplingCapacitor(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("3 V"), Output: q("3.3 V"), Load: q("2 A"), Frequency: q("330 kHz"), Diode: q("0.5 V"), SEPIC: true}
	d, err := Duty(stage)
	expect.Near(t, "Duty", expect.Must(t, d, err).Duty, "0.56", 5e-3)
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("1.76 A").Div(d.Current)})
	expect.Near(t, "Inductance", expect.Must(t, l, err).Inductance, "5.8 µH", 1e-2)
	stage.Inductance = q("1 H")
	c, err := CouplingRipple(CouplingRippleInputs{Stage: stage, Capacitance: q("10 µF")})
	expect.Near(t, "RMS", expect.Must(t, c, err).RMS, "2.25 A", 2e-3)
	expect.Near(t, "Capacitive", c.Capacitive, "0.34 V", 5e-3)
	expect.Near(t, "Voltage", c.Voltage, "3 V", 1e-12)
	v, err := Stresses(StressesInputs{Stage: stage, Rating: q("20 V")})
	expect.Near(t, "Switch", expect.Must(t, v, err).Switch, "6.8 V", 1e-9)
}

// Source: Erickson and Maksimović, Fundamentals of Power Electronics, section
// 8.2.2, from memory: buck-boost of 30 V, duty 0.6, 10 Ω, 160 µH: right-half-
// plane zero 2.65 kHz.
func TestPublishedRightHalfPlaneZero(t *testing.T) {
	t.Parallel()
	z, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: Stage{Input: q("30 V"), Output: q("-45 V"), Load: q("4.5 A"), Frequency: q("100 kHz"), Inductance: q("160 µH")}})
	expect.Near(t, "Zero", expect.Must(t, z, err).Zero, "2.65 kHz", 2e-3)
	expect.Near(t, "LoadResistance", z.LoadResistance, "10 Ω", 1e-12)
	expect.Near(t, "Crossover", z.Crossover, "530 Hz", 2e-3)
}

// The zeros of a SEPIC, against the averaged equations of both inductors and
// the coupling capacitor, solved for the current into the output at many
// frequencies: where it turns by an eighth of a turn more than the integrator
// that is left without the zero, the zero lies. Far above the resonance of
// the coupling capacitor it is Above, far below it Below.
func TestZerosOfSEPIC(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		l1, l2 := rapid.Float64Range(5e-6, 50e-6).Draw(t, "l1"), rapid.Float64Range(5e-6, 50e-6).Draw(t, "l2")
		in := rapid.Float64Range(5, 30).Draw(t, "in")
		out, load := 12.0, 1.0
		duty := out / (in + out)
		sum, v := load/(1-duty), in+out
		stage := Stage{Input: of(in, "V"), Output: q("12 V"), Load: q("1 A"), Frequency: q("1 MHz"), Inductance: of(l1, "H"), Second: of(l2, "H"), SEPIC: true}
		z, err := RightHalfPlaneZero(RightHalfPlaneZeroInputs{Stage: stage})
		if err != nil {
			t.Fatal(err)
		}
		// What a change d of the duty does to (1 − D)·(i1 + i2) − sum·d: with x =
		// 1 − D, s·l1·i1 = −x·u + v·d, s·l2·i2 = D·u + v·d, s·c·u = x·i1 − D·i2 − sum·d.
		phase := func(f, c float64) float64 {
			s, x := complex(0, 2*math.Pi*f), 1-duty
			cx, cd := complex(x, 0), complex(duty, 0)
			cv, cs := complex(v, 0), complex(sum, 0)
			a, b := s*complex(l1, 0), s*complex(l2, 0)
			// i1 = (v − x·u)/a, i2 = (v + D·u)/b.
			u := (cx*cv/a - cd*cv/b - cs) / (s*complex(c, 0) + cx*cx/a + cd*cd/b)
			i := cx*((cv-cx*u)/a+(cv+cd*u)/b) - cs
			return math.Atan2(imag(i), real(i))
		}
		turn := func(name string, zero, c float64) {
			// Of an integrator with the zero: −90° − 45°.
			if d := math.Abs(phase(zero, c) + 3*math.Pi/4); d > 1e-3 {
				t.Fatalf("%s: at %v Hz the phase is %v", name, zero, phase(zero, c)*180/math.Pi)
			}
		}
		turn("Above", z.Above.SI(), 1)
		turn("Below", z.Below.SI(), 1e-16)
	})
}

// The resonance of the coupling capacitor by hand, the usual form of which,
// 1/(2π·√((first + second) · capacitance)), holds for equal inductors at a duty
// of a half.
func TestResonanceByHand(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("12 V"), Output: q("12 V"), Load: q("1 A"), Frequency: q("500 kHz"), Inductance: q("27.5 µH"), SEPIC: true}
	// At a duty of a half two equal ones are in series: 1/(2π·√(55 µH · 4.7 µF)) = 9.8991 kHz;
	// √(55/4.7) = 3.42084 Ω; n = 4: √(6 · 16/(32 · 8)) = 0.612372 of it.
	r, err := CouplingResonance(CouplingResonanceInputs{Stage: stage, Capacitance: q("4.7 µF")})
	expect.Near(t, "Inductance", expect.Must(t, r, err).Inductance, "55 µH", 1e-12)
	expect.Near(t, "Resonance", r.Resonance, "9.8991 kHz", 1e-4)
	expect.Near(t, "Characteristic", r.Characteristic, "3.42084 Ω", 1e-5)
	expect.Near(t, "DampingResistor", r.DampingResistor, "2.094831 Ω", 1e-5)
	expect.Near(t, "FrequencyRatio", r.FrequencyRatio, "50.51", 1e-3)
	// Coupled, 22 µH with 0.4 µH of leakage: inductance − M = 22 µH − √(22 · 21.6)
	// µH = 0.200918 µH; at a half twice that, 0.401836 µH.
	stage.Inductance, stage.Second, stage.Coupled = q("22 µH"), units.Quantity{}, true
	r, err = CouplingResonance(CouplingResonanceInputs{Stage: stage, Capacitance: q("4.7 µF"), Leakage: q("0.4 µH")})
	expect.Near(t, "Inductance, coupled", expect.Must(t, r, err).Inductance, "0.401836 µH", 1e-5)
	// 1 A · 0.5/500 kHz/4.7 µF = 212.766 mV; over 16 · 500 kHz · 0.200918 µH.
	expect.Near(t, "Circulating", r.Circulating, "132.37 mA", 1e-3)
}

// The resonance rings in a simulation: of two unequal inductors, at a duty that
// is not a half, started beside the settled state.
func TestSimulatedResonance(t *testing.T) {
	t.Parallel()
	for _, in := range []float64{5, 12, 30} {
		c := circuit{in: in, out: 12, f: 500e3, l1: 33e-6, l2: 15e-6, cc: 10e-6, on: 1e-4, r1: 1e-4, r2: 1e-4, rect: 1e-4, reverse: true, steps: 100}
		stage := c.stage(1)
		r, err := CouplingResonance(CouplingResonanceInputs{Stage: stage, Capacitance: of(c.cc, "F")})
		expect.Must(t, r, err)
		d, err := Duty(stage)
		expect.Must(t, d, err)
		x := c.settled(d.Duty.SI(), state{v: in})
		rest := x.v
		x.v += 0.2
		// The times at which the voltage passes its rest upwards.
		var first, last float64
		turns, before := -1, x.v-rest
		for k := range 2000 {
			x, _ = c.period(d.Duty.SI(), x, false)
			now := x.v - rest
			if before < 0 && now >= 0 {
				last = (float64(k) - now/(now-before)) / c.f
				if turns++; turns == 0 {
					first = last
				}
			}
			before = now
		}
		got := float64(turns) / (last - first)
		if want := r.Resonance.SI(); math.Abs(got-want) > 2e-2*want {
			t.Errorf("at %v V it rings at %v Hz, want %v Hz", in, got, want)
		}
	}
}

// A coupled pair simulated with its leakage: the windings' ripple is what the
// common inductance makes and what circulates, within a tenth.
func TestSimulatedLeakage(t *testing.T) {
	t.Parallel()
	c := circuit{in: 12, out: 12, f: 400e3, l1: 22e-6, l2: 22e-6, cc: 4.7e-6, m: 22e-6 * math.Sqrt(1-0.5/22), on: 0.02, r1: 0.02, r2: 0.02, rect: 0.02, steps: 1500}
	stage := c.stage(1)
	r, err := CouplingResonance(CouplingResonanceInputs{Stage: stage, Capacitance: of(c.cc, "F"), Leakage: q("0.5 µH")})
	expect.Must(t, r, err)
	i, err := Currents(stage)
	expect.Must(t, i, err)
	_, samples := c.at(1, i.OnShare.SI())
	least, most := span(samples, func(s sample) float64 { return s.i1 - s.i2 })
	// The difference of both currents has twice what circulates in each.
	if got := 2 * r.Circulating.SI(); math.Abs(got-(most-least)) > 0.1*got {
		t.Errorf("circulating %v A, simulated %v A", got/2, (most-least)/2)
	}
	// The sum is not touched: half of 22 µH · (1 + √(1 − 0.5/22)) meets it.
	low, high := span(samples, func(s sample) float64 { return s.i1 + s.i2 })
	if d := math.Abs(i.Ripple.SI() - (high - low)); d > 0.02*i.Ripple.SI() {
		t.Errorf("ripple of both %v A, simulated %v A", i.Ripple.SI(), high-low)
	}
}
