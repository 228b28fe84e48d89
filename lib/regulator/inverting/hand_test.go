package inverting

import (
	"math"
	"math/cmplx"
	"testing"

	"ohmwright/lib/regulator/loop"
)

// By arithmetic written out.
func TestByHand(t *testing.T) {
	t.Parallel()
	// 5.5 V/(12 V + 5.5 V) and 1 A/(12/17.5); 12 V · 0.3143/(500 kHz · 15 µH).
	stage := Stage{Input: q("12 V"), Output: q("-5 V"), Load: q("1 A"), Frequency: q("500 kHz"), Diode: q("0.5 V")}
	d, err := Duty(stage)
	near(t, "Duty", must(t, d, err).Duty, "31.4285714286 %", 1e-9)
	near(t, "Ideal", d.Ideal, "29.4117647059 %", 1e-9)
	near(t, "Current", d.Current, "1.45833333333 A", 1e-9)
	near(t, "InputMean", d.InputMean, "0.458333333333 A", 1e-9)
	l, err := Inductance(InductanceInputs{Stage: stage, Ratio: q("40 %")})
	near(t, "Inductance", must(t, l, err).Inductance, "12.9306122449 µH", 1e-9) // 12 V · 628.571 ns/0.583333 A
	stage.Inductance = q("15 µH")
	i, err := Currents(stage)
	near(t, "Ripple", must(t, i, err).Ripple, "0.502857142857 A", 1e-9)
	near(t, "Peak", i.Peak, "1.7097619 A", 1e-7)
	near(t, "Boundary", i.Boundary, "0.172408163 A", 1e-7) // 0.502857/2 · 0.685714

	// With every drop: charging 0.8 · 0.21 = 0.168 V, a = 17 V, b = 12 + 0.8 ·
	// 0.06 = 12.048 V; off-share (12.048 + √(145.154304 − 11.424))/34 = (12.048 +
	// 11.5641819)/34.
	d, err = Duty(rail())
	near(t, "OffShare", must(t, d, err).OffShare, "69.4475938 %", 1e-7)
	near(t, "Current", d.Current, "1.15194776 A", 1e-7)
	near(t, "OnVoltage", d.OnVoltage, "11.7580910 V", 1e-7)   // 12 − 1.15194776 · 0.21
	near(t, "OffVoltage", d.OffVoltage, "5.17279216 V", 1e-7) // 5 + 1.15194776 · 0.15
	// 0.8 · (0.15 + 0.09 + 0.12) + 2 · √(0.168 · (5 + 0.8 · 0.15)) = 0.288 + 1.85490.
	near(t, "LeastInput", d.LeastInput, "2.14291 V", 1e-5)
	// Half of 22 µH and 33 µH in parallel counts: 13.2 µH.
	near(t, "together", sepic().together(), "13.2 µH", 1e-12)

	// 15 V + 5 V + 0.5 V + 4 V; the regulator 20 V; 36 V − 9.5 V.
	stage.Input = q("15 V")
	v, err := Stresses(StressesInputs{Stage: stage, Ringing: q("4 V"), Rating: q("36 V")})
	near(t, "Switch", must(t, v, err).Switch, "24.5 V", 1e-12)
	near(t, "Rectifier", v.Rectifier, "24 V", 1e-12)
	near(t, "Regulator", v.Regulator, "20 V", 1e-12)
	near(t, "Margin", v.Margin, "11.5 V", 1e-12)
	near(t, "MostInput", v.MostInput, "26.5 V", 1e-12)
	v, err = Stresses(StressesInputs{Stage: sepic(), Rating: q("40 V")})
	near(t, "Regulator of a SEPIC", must(t, v, err).Regulator, "12 V", 1e-12)

	// 12 V · 2.2/49.2 = 0.536585 V, and 1 mA · 100 Ω; the diode holds 0.4 V.
	u, err := Lift(LiftInputs{Step: q("12 V"), Bypass: q("2.2 µF"), OutputCapacitance: q("47 µF"), Quiescent: q("1 mA"), LoadResistance: q("100 Ω")})
	near(t, "Lift", must(t, u, err).Lift, "0.636585365854 V", 1e-9)
	u, err = Lift(LiftInputs{Step: q("12 V"), Bypass: q("2.2 µF"), OutputCapacitance: q("47 µF"), Clamp: q("0.4 V")})
	near(t, "Lift, clamped", must(t, u, err).Lift, "0.4 V", 1e-12)

	// 6 A/V · 6.25 Ω · 0.694476/1.305524 = 19.9481; 1.305524/(2π · 6.25 Ω · 44
	// µF) = 755.57 Hz; 1/(2π · 3 mΩ · 44 µF) = 1.20572 MHz.
	p, err := Plant(PlantInputs{Stage: rail(), Capacitance: q("44 µF"), ESR: q("3 mΩ"), PowerStage: q("6 A/V")})
	near(t, "Gain", must(t, p, err).Gain, "19.9481", 1e-5)
	near(t, "LoadPole", p.LoadPole, "755.57 Hz", 1e-4)
	near(t, "ESRZero", p.ESRZero, "1.20572 MHz", 1e-5)
	m, err := loop.Margins(p.Plant, loop.Amplifier{Transconductance: q("350 µA/V"), Upper: q("52.3 kΩ"), Lower: q("10 kΩ"), Resistor: q("8.2 kΩ"), Capacitor: q("22 nF")})
	must(t, m, err)
	// The same loop in complex numbers: divider, amplifier with 8.2 kΩ and 22 nF,
	// gain, load pole, ESR zero, and the zero on the right.
	at := complex(0, 2*math.Pi*m.Crossover.SI())
	turn := func(f float64) complex128 { return at / complex(2*math.Pi*f, 0) }
	amplifier := complex(10/62.3*350e-6, 0) * (8200 + 1/(at*22e-9))
	whole := amplifier * 19.9481 / (1 + turn(755.57)) * (1 + turn(1.20572e6)) * (1 - turn(p.RightZero.SI()))
	if g := cmplx.Abs(whole); math.Abs(g-1) > 1e-4 {
		t.Errorf("at the crossover the gain is %v", g)
	}
	if d := math.Abs(cmplx.Phase(whole) + math.Pi - m.PhaseMargin.SI()); d > 1e-3 {
		t.Errorf("phase margin %v, by hand %v", m.PhaseMargin.SI(), cmplx.Phase(whole)+math.Pi)
	}

	// 0.3 A/(2π · 8 kHz · 0.3 V) = 19.8944 µF.
	c, err := OutputCapacitor(OutputCapacitorInputs{Stage: rail(), Capacitive: q("20 mV"), Resistive: q("20 mV"), Step: q("0.3 A"), Deviation: q("0.3 V"), Crossover: q("8 kHz")})
	near(t, "ForStep", must(t, c, err).ForStep, "19.8944 µF", 1e-5)

	// 12 V · 80 ns/15 µH = 64 mA.
	k, err := CurrentLimit(CurrentLimitInputs{Stage: rail(), Limit: q("2.5 A"), Delay: q("80 ns"), Saturation: q("3 A")})
	near(t, "LargestPeak", must(t, k, err).LargestPeak, "2.564 A", 1e-12)
	near(t, "SaturationShare", k.SaturationShare, "14.5333333333 %", 1e-9)

	// Off 0.305524/0.694476 of 2 µs; the input at 90 %: (0.1 · 5 V + 0.8 A · 0.15
	// Ω)/0.9 + 0.8 A · 0.21 Ω/0.1.
	tm, err := Timing(TimingInputs{Stage: rail(), LeastOn: q("100 ns"), LeastOff: q("120 ns"), MostDuty: q("90 %")})
	near(t, "OnTime", must(t, tm, err).OnTime, "611.048 ns", 1e-5)
	near(t, "DutyMargin", tm.DutyMargin, "59.4476 %", 1e-5)
	near(t, "LeastInput", tm.LeastInput, "2.36888888889 V", 1e-9)
	near(t, "MostInput", tm.MostInput, "97.5768421053 V", 1e-9) // (0.95 · 5 + 0.12)/0.05 + 0.168/0.95
	tm, err = Timing(TimingInputs{Stage: rail(), LeastOn: q("100 ns")})
	near(t, "LeastInput without a limit", must(t, tm, err).LeastInput, "2.14291 V", 1e-5)
}

// The static gain of the plant: what the load voltage settles to as the peak
// current is raised a little, from the balance of power of a stage without
// losses that gives its current to a resistor, in small steps.
func TestPlantGainBySteps(t *testing.T) {
	t.Parallel()
	stage := Stage{Input: q("12 V"), Output: q("-9 V"), Load: q("0.9 A"), Frequency: q("500 kHz"), Inductance: q("10 mH")}
	p, err := Plant(PlantInputs{Stage: stage, Capacitance: q("44 µF"), PowerStage: q("1 A/V")})
	must(t, p, err)
	// (1 − D) · I = V/R with D = V/(12 + V), R = 10 Ω.
	settled := func(i float64) (v float64) {
		for range 200 {
			v = 0.5*v + 0.5*i*12/(12+v)*10
		}
		return v
	}
	i := 0.9 * 21 / 12
	if got, want := p.Gain.SI(), (settled(i+1e-4)-settled(i-1e-4))/2e-4; math.Abs(got-want) > 1e-5*want {
		t.Errorf("gain %v, by steps %v", got, want)
	}
}

// The inrush of a SEPIC at rest, integrated: its coupling capacitor, the first
// inductor and the empty output; what is found is not exceeded, and nearly
// reached with a stiff supply.
func TestSimulatedInrush(t *testing.T) {
	t.Parallel()
	const in, l1, l2, cc, co = 24.0, 22e-6, 22e-6, 10e-6, 100e-6
	stage := Stage{Input: of(in, "V"), Output: q("12 V"), Load: q("1 A"), Frequency: q("400 kHz"), Inductance: of(l1, "H"), Second: of(l2, "H"), SEPIC: true}
	r, err := Inrush(InrushInputs{Stage: stage, Capacitance: of(cc, "F"), OutputCapacitance: of(co, "F")})
	must(t, r, err)
	var i1, i2, vc, vo, peak, most, lift float64
	const h = 1e-9
	for range 200000 {
		// i2 flows from ground to the anode; the diode takes what is left over.
		diode := i1 + i2
		anode := vo
		if diode <= 0 && (in-vc)*l2/(l1+l2) < vo {
			diode, i2 = 0, -i1
			anode = (in - vc) * l2 / (l1 + l2)
		}
		i1 += h * (in - vc - anode) / l1
		i2 += h * -anode / l2
		vc += h * i1 / cc
		vo += h * math.Max(diode, 0) / co
		peak, most, lift = math.Max(peak, i1), math.Max(most, vc), math.Max(lift, vo)
	}
	for _, x := range []struct {
		name       string
		got, bound float64
		least      float64
	}{{"Undamped", peak, r.Undamped.SI(), 0.85}, {"Most", most, r.Most.SI(), 0.7}, {"OutputLift", lift, r.OutputLift.SI(), 0.7}} {
		if x.got > x.bound*1.001 || x.got < x.least*x.bound {
			t.Errorf("%s: integrated %v, bound %v", x.name, x.got, x.bound)
		}
	}
	near(t, "Undamped", r.Undamped, "16.18080 A", 1e-6)     // 24 V · √(10/22)
	near(t, "OutputLift", r.OutputLift, "7.589466 V", 1e-6) // 24 V · √(10/100)
	near(t, "Time", r.Time, "23.2987 µs", 1e-5)             // π/2 · √(220) µs
	two := stage
	two.Second, two.Coupled = rail().Second, true
	c, err := Inrush(InrushInputs{Stage: two, Capacitance: of(cc, "F"), OutputCapacitance: of(co, "F"), Leakage: q("0.4 µH"), Resistance: q("0.5 Ω")})
	near(t, "Undamped, coupled", must(t, c, err).Undamped, "120 A", 1e-9) // 24 V · √(10/0.4)
	near(t, "Peak, coupled", c.Peak, "48 A", 1e-9)
}
