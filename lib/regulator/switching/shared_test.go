package switching

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
)

// Source: TPS54540B SLVSEZ9: start at 5.75 V, stop at 4.5 V; 365 kΩ and 88.7
// kΩ chosen from E96. Thresholds 1.2 V, 1.2 µA and 3.4 µA of the pin from
// memory. By its formulas (5.75 − 4.5)/3.4 µA = 367.647 kΩ and 1.2 V/((5.75 −
// 1.2) V/367.647 kΩ + 1.2 µA) = 88.391 kΩ.
func TestPublishedLockout(t *testing.T) {
	t.Parallel()
	d, err := LockoutDivider(LockoutDividerInputs{Start: q("5.75 V"), Stop: q("4.5 V"), Rising: q("1.2 V"), Pull: q("1.2 µA"), Extra: q("3.4 µA")})
	expect.Near(t, "Upper", expect.Must(t, d, err).Upper, "367.64706 kΩ", 1e-7)
	expect.Near(t, "Lower", d.Lower, "88.391279 kΩ", 1e-6)
	expect.Near(t, "Upper chosen", d.Upper, "365 kΩ", 1.2e-2) // E96 is 2.4 % apart
	expect.Near(t, "Lower chosen", d.Lower, "88.7 kΩ", 1.2e-2)
	u, err := Lockout(LockoutInputs{Upper: q("365 kΩ"), Lower: q("88.7 kΩ"), Rising: q("1.2 V"), Pull: q("1.2 µA"), Extra: q("3.4 µA")})
	// 1.2 + 365 kΩ · (1.2/88.7 kΩ − 1.2 µA) = 1.2 + 4.9379932 − 0.438; the stop is 365 kΩ · 3.4 µA lower.
	expect.Near(t, "Start", expect.Must(t, u, err).Start, "5.6999932 V", 1e-7)
	expect.Near(t, "Stop", u.Stop, "4.4589932 V", 1e-7)
	expect.Near(t, "Hysteresis", u.Hysteresis, "1.241 V", 1e-12)
}

// Source: R. W. Erickson, Optimal single resistor damping of input filters,
// 1999, equations from memory: with n the ratio of damping to filter
// capacitance the least peak is R0 · √(2 · (2 + n))/n, at the resistance R0 ·
// √((2 + n)(4 + 3n)/(2n²(4 + n))).
func TestBestDamping(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ damping, peak, resistance string }{
		// R0 = √(10 µH/10 µF) = 1 Ω.
		{"10 µF", "2.4494897 Ω", "1.4491377 Ω"},    // n 1: √6; √(3 · 7/10)
		{"40 µF", "866.0254 mΩ", "612.3724357 mΩ"}, // n 4: √12/4; √(6 · 16/256)
		{"160 µF", "375 mΩ", "302.3346656 mΩ"},     // n 16: √36/16; √(18 · 52/10240)
		{"1 mF", "142.82857 mΩ", "122.097061 mΩ"},  // n 100: √204/100; √(102 · 304/2080000)
	} {
		f, err := InputFilter(InputFilterInputs{Input: q("18 V"), Power: q("9 W"), Frequency: q("400 kHz"), Inductance: q("10 µH"), Capacitance: q("10 µF"), Damping: q(test.damping)})
		expect.Must(t, f, err)
		expect.Near(t, "BestResistance with "+test.damping, f.BestResistance, test.resistance, 1e-7)
		expect.Near(t, "LargestImpedance with "+test.damping, f.LargestImpedance, test.peak, 1e-6)
	}
}

// Source: TPS40303 SLUS964A p. 16: 44 µF to 1.8 V in 1.5 ms take 0.053 A.
func TestPublishedSoftStart(t *testing.T) {
	t.Parallel()
	start, err := SoftStart(SoftStartInputs{Capacitor: q("3 nF"), Current: q("2 µA"), Reference: q("1 V"), Output: q("1.8 V"), Bank: q("44 µF")})
	expect.Near(t, "Time", expect.Must(t, start, err).Time, "1.5 ms", 1e-12)
	expect.Near(t, "ChargeCurrent", start.ChargeCurrent, "0.053 A", 5e-3)
}

// A lockout divider does what it was made for, with one or two thresholds
// and with or without pull-up.
func TestLockoutBackAndForth(t *testing.T) {
	t.Parallel()
	for _, in := range []LockoutDividerInputs{
		{Start: q("17.5 V"), Stop: q("16 V"), Rising: q("1.2 V"), Pull: q("1.2 µA"), Extra: q("3.4 µA")},
		{Start: q("17.5 V"), Stop: q("14 V"), Rising: q("1.25 V"), Falling: q("1.15 V"), Pull: q("1 µA"), Extra: q("2 µA")},
		{Start: q("9 V"), Stop: q("7 V"), Rising: q("2 V"), Falling: q("1.9 V"), Extra: q("5 µA")},
	} {
		d, err := LockoutDivider(in)
		expect.Must(t, d, err)
		u, err := Lockout(LockoutInputs{Upper: d.Upper, Lower: d.Lower, Rising: in.Rising, Falling: in.Falling, Pull: in.Pull, Extra: in.Extra})
		expect.Must(t, u, err)
		expect.Near(t, "Start", u.Start, in.Start.Text(9), 1e-12)
		expect.Near(t, "Stop", u.Stop, in.Stop.Text(9), 1e-12)
	}
}

// The rest, by arithmetic written out.
func TestByHand(t *testing.T) {
	t.Parallel()
	// 60 mW · (400/500)^1.4 · (0.6/0.5)^2.3, by logarithms: 60 mW · e^(1.4 ln
	// 0.8 + 2.3 ln 1.2) = 60 mW · e^(−0.312401 + 0.419340) = 66.772 mW.
	c, err := CoreLoss(CoreLossInputs{Ripple: q("0.6 A"), Frequency: q("400 kHz"), ReferenceLoss: q("60 mW"), ReferenceRipple: q("0.5 A"), ReferenceFrequency: q("500 kHz"), Alpha: 1.4, Beta: 2.3})
	expect.Near(t, "Loss", expect.Must(t, c, err).Loss, "66.772 mW", 2e-5)

	// 10 nF · 0.8 V/2 µA = 4 ms; 66 µF · 5 V/4 ms = 82.5 mA; and back.
	s, err := SoftStart(SoftStartInputs{Capacitor: q("10 nF"), Current: q("2 µA"), Reference: q("0.8 V"), Output: q("5 V"), Bank: q("66 µF")})
	expect.Near(t, "Time", expect.Must(t, s, err).Time, "4 ms", 1e-12)
	expect.Near(t, "ChargeCurrent", s.ChargeCurrent, "82.5 mA", 1e-12)
	css, err := SoftStartCapacitor(q("4 ms"), q("2 µA"), q("0.8 V"))
	expect.Near(t, "the capacitor", expect.Must(t, css, err), "10 nF", 1e-12)

	// 18²/9 = 36 Ω; 1 Ω and 15.9155 kHz of 10 µH and 10 µF; (400/15.9155)² − 1.
	f, err := InputFilter(InputFilterInputs{Input: q("18 V"), Power: q("9 W"), Frequency: q("400 kHz"), Inductance: q("10 µH"), Capacitance: q("10 µF"), Damping: q("40 µF"), Resistance: q("1 Ω")})
	expect.Near(t, "NegativeResistance", expect.Must(t, f, err).NegativeResistance, "36 Ω", 1e-12)
	expect.Near(t, "Characteristic", f.Characteristic, "1 Ω", 1e-12)
	expect.Near(t, "Resonance", f.Resonance, "15.9155 kHz", 1e-6)
	expect.Near(t, "Attenuation", f.Attenuation, "630.655", 1e-5)
	expect.Near(t, "the margin", f.Margin.Mul(f.LargestImpedance), "36 Ω", 1e-12)
}

// The largest impedance with any damping, against a fine sweep of the
// complex impedances in parallel.
func TestImpedancePeak(t *testing.T) {
	t.Parallel()
	for _, n := range []float64{0.3, 1, 4, 50, 1000} {
		for _, r := range []float64{0.05, 0.3, 1, 5, 1000} {
			worst := 0.0
			for k := range 40001 {
				w := math.Pow(10, -2+3*float64(k)/40000)
				admittance := complex(0, w) + 1/complex(0, w) + 1/(complex(r, 0)+1/complex(0, w*n))
				worst = math.Max(worst, 1/math.Hypot(real(admittance), imag(admittance)))
			}
			got := impedancePeak(n, r)
			// A sharp peak falls between the points of the sweep.
			if got < worst*(1-1e-9) || got > worst*1.02 {
				t.Errorf("n %g, r %g: %v, swept %v", n, r, got, worst)
			}
		}
	}
	// Hardly damped at all, at ω² = 1/(1 + n) all reactances cancel but for
	// r's part, ω²n²r: the peak is (1 + n)/(n²r).
	if got, want := impedancePeak(0.01, 1e-3), 1.01e7; math.Abs(got-want) > 1e-6*want {
		t.Errorf("hardly damped: %v, want %v", got, want)
	}
}
