package protect

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Source: Littelfuse fuse guide 2017, chart 1 (checks 07-04): factors of the
// integrals; numbers by hand for 10 A and 5 ms. Trapezoid, B: (ip² + ip·ib +
// ib²)·t/3 = (100 + 40 + 16) · 5 ms/3.
func TestPulseIntegrals(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ shape, base, want string }{
		{"rectangle", "", "0.5 A²·s"}, {"triangle", "", "0.166666667 A²·s"}, {"half sine", "", "0.25 A²·s"},
		{"square law", "", "0.1 A²·s"}, {"exponential", "", "0.25 A²·s"}, {"trapezoid", "4 A", "0.26 A²·s"},
		{"trapezoid", "10 A", "0.5 A²·s"}, {"trapezoid", "0 A", "0.166666667 A²·s"},
	} {
		in := PulseInputs{Shape: test.shape, Peak: q("10 A"), Time: q("5 ms")}
		if test.base != "" {
			in.Base = q(test.base)
		}
		expect.Near(t, test.shape, expect.Result[PulseResult](t)(PulseIntegral(in)).Integral, test.want, 1e-8)
	}
	// 24 V/0.3 Ω = 80 A, 141 µs: 6400 A² · 70.5 µs.
	p := expect.Result[CapacitorPulseResult](t)(CapacitorPulse(CapacitorPulseInputs{Voltage: q("24 V"), Capacitance: q("470 µF"), Resistance: q("0.3 Ω")}))
	expect.Near(t, "Peak", p.Peak, "80 A", 1e-12)
	expect.Near(t, "Integral", p.Integral, "0.4512 A²·s", 1e-12)
	// The exponential of that peak and time constant is the same pulse.
	e := expect.Result[PulseResult](t)(PulseIntegral(PulseInputs{Shape: "exponential", Peak: p.Peak, Time: p.TimeConstant}))
	expect.Near(t, "exponential", e.Integral, "0.4512 A²·s", 1e-12)
}

// Source: Littelfuse fuse guide 2017, chart 2 (check 07-06); between its
// points along the logarithm, by hand: √(100 · 1000) pulses are half way from
// 48 % to 38 %.
func TestPulsesOfAFuse(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ pulses, share string }{
		{"1", "48 %"}, {"10", "48 %"}, {"100", "48 %"}, {"316.22776601683796", "43 %"}, {"1000", "38 %"}, {"10000", "29 %"}, {"100000", "22 %"},
	} {
		p := expect.Result[FusePulseResult](t)(FusePulse(FusePulseInputs{Integral: q("0.1 A²·s"), Melting: q("2 A²·s"), Pulses: q(test.pulses)}))
		expect.Near(t, "Share at "+test.pulses, p.Share, test.share, 1e-12)
		// The inverse: a fuse of LeastMelting allows just this pulse.
		r := expect.Result[FusePulseResult](t)(FusePulse(FusePulseInputs{Integral: q("0.1 A²·s"), Melting: p.LeastMelting, Pulses: q(test.pulses)}))
		expect.Near(t, "Allowed of LeastMelting", r.Allowed, "0.1 A²·s", 1e-12)
	}
	own := expect.Table("pulses [1] log, share [%]\n10, 60\n1000, 40")
	p := expect.Result[FusePulseResult](t)(FusePulse(FusePulseInputs{Integral: q("0.1 A²·s"), Melting: q("2 A²·s"), Pulses: q("100"), Withstand: own}))
	expect.Near(t, "Share of one's own curve", p.Share, "50 %", 1e-12)
	expect.Near(t, "Used", p.Used, "10 %", 1e-12)
}

// Sources: EDN, 26 September 1996, fuse selection checklist: 75 % of the
// rating. Avnet Abacus, Five criteria for fuse selection, 2021: a 1 A load at
// 60 °C, where a time-lag fuse of IEC 60127 keeps 83 %, needs 1 A/0.83 = 1.2048
// A, so 1.25 A.
func TestFuseRatings(t *testing.T) {
	t.Parallel()
	in := FuseInputs{Rated: q("5 A"), Family: "UL 248", Load: q("3 A"), Supply: q("32 V"), Voltage: q("63 V"), Fault: q("40 A"), Breaking: q("50 A"), Resistance: q("15 mΩ")}
	f := expect.Result[FuseResult](t)(Fuse(in))
	expect.Near(t, "Allowed", f.Allowed, "3.75 A", 1e-12)
	expect.Near(t, "Margin", f.Margin, "0.75 A", 1e-12)
	expect.Near(t, "LeastRated", f.LeastRated, "4 A", 1e-12)
	expect.Near(t, "VoltageMargin", f.VoltageMargin, "31 V", 1e-12)
	expect.Near(t, "BreakingMargin", f.BreakingMargin, "10 A", 1e-12)
	expect.Near(t, "Drop", f.Drop, "45 mV", 1e-12)
	expect.Near(t, "Loss", f.Loss, "135 mW", 1e-12)
	in = FuseInputs{
		Rated: q("1.25 A"), Family: "IEC 60127", Derating: expect.Table("ambient [°C], share [%]\n-40, 112\n23, 100\n60, 83\n125, 40"), Ambient: q("60 °C"),
		Load: q("1 A"), Supply: q("24 V"), Voltage: q("125 V"), Fault: q("20 A"), Breaking: q("50 A"),
	}
	f = expect.Result[FuseResult](t)(Fuse(in))
	expect.Near(t, "LeastRated at 60 °C", f.LeastRated, "1.2048193 A", 1e-7)
	expect.Near(t, "Allowed at 60 °C", f.Allowed, "1.0375 A", 1e-12)
	// At the limit it is allowed, and LeastRated is the inverse.
	in.Rated = f.LeastRated
	if m := expect.Result[FuseResult](t)(Fuse(in)).Margin; m.SI() < -1e-15 || m.SI() > 1e-15 {
		t.Errorf("a fuse of LeastRated has a margin of %v", m)
	}
}

// Sources: hold currents of MF-R500, MF-R800 and MF-RG500 (checks 07-01, 07-02,
// second-hand); of a plug-in type by shares (07-03): 1.10 A at 60 °C is 0.781 A.
func TestHoldCurrents(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ name, table, ambient, hold string }{
		{"MF-R500", "t [°C], I [A]\n23, 5\n40, 4.15\n50, 3.85\n60, 3.4", "50 °C", "3.85 A"},
		{"MF-R800", "t [°C], I [A]\n23, 8\n40, 6.64\n50, 6.16\n60, 5.44", "55 °C", "5.8 A"},
		{"MF-RG500", "t [°C], I [A]\n23, 5\n40, 4.4\n50, 4\n60, 3.6\n70, 3.1", "65 °C", "3.35 A"},
	} {
		in := resettable()
		in.Hold, in.Ambient, in.Load, in.LeastFault = expect.Table(test.table), q(test.ambient), q("2 A"), q("15 A")
		r := expect.Result[ResettableResult](t)(Resettable(with(in, func(in *ResettableInputs) { in.Reference = q("23 °C") })))
		expect.Near(t, test.name, r.HoldCurrent, test.hold, 1e-12)
	}
	r := expect.Result[ResettableResult](t)(Resettable(resettable()))
	expect.Near(t, "Hold", r.HoldCurrent, "0.781 A", 1e-12)
	expect.Near(t, "Trip", r.TripCurrent, "1.562 A", 1e-12)
	expect.Near(t, "HoldMargin", r.HoldMargin, "0.281 A", 1e-12)
	expect.Near(t, "TripMargin", r.TripMargin, "3.438 A", 1e-12)
	expect.Near(t, "DropAfterTrip", r.DropAfterTrip, "0.2 V", 1e-12)
	expect.Near(t, "LossAfterTrip", r.LossAfterTrip, "0.1 W", 1e-12)
	// 5 A · 1.1/0.781 = 7.0422535 A; 4 A²s/49.593335 A².
	expect.Near(t, "EquivalentFault", r.EquivalentFault, "7.0422535 A", 1e-8)
	expect.Near(t, "TripTime", r.TripTime, "80.6560 ms", 1e-6)
	expect.Near(t, "TripTimeMargin", r.TripTimeMargin, "0.919344 s", 1e-6)
	in := with(resettable(), func(in *ResettableInputs) {
		in.TripIntegral = units.Quantity{}
		in.TripTimes = expect.Table("fault [A] log, time [s] log\n2, 20\n8, 0.32")
		in.LeastFault = q("2.84 A") // 4 A at 25 °C, the middle of the decade
		in.Trip = expect.Table("ambient [°C], trip current [A]\n25, 2.2\n60, 1.6")
	})
	r = expect.Result[ResettableResult](t)(Resettable(in))
	expect.Near(t, "Trip by its table", r.TripCurrent, "1.6 A", 1e-12)
	expect.Near(t, "TripTime by its table", r.TripTime, "2.52982 s", 1e-5) // √(20 · 0.32)
}

func with[T any](in T, change func(*T)) T { change(&in); return in }

// Source: application notes of makers of polymer fuses, from memory: it resets
// where supply²/(4 · load) is less than its power. By hand: 24 V and 1.2 W: 120 Ω;
// with 45 Ω in series √(576 − 216) = 18.973666, 2.4/42.973666 A.
func TestTrippedState(t *testing.T) {
	t.Parallel()
	in := TrippedInputs{Supply: q("24 V"), Load: q("45 Ω"), Power: q("1.2 W"), Ambient: q("23 °C")}
	r := expect.Result[TrippedResult](t)(Tripped(in))
	expect.Near(t, "LeastLoad", r.LeastLoad, "120 Ω", 1e-12)
	expect.Near(t, "Current", r.Current, "55.8481 mA", 1e-5)
	closeTo(t, "balance of power", 24*r.Current.SI(), r.Cooling.SI()+r.LoadPower.SI(), 1e-12)
	closeTo(t, "power of the fuse", r.Voltage.SI()*r.Current.SI(), r.Cooling.SI(), 1e-12)
	// Half way from 23 °C to 125 °C half of the power is left.
	r = expect.Result[TrippedResult](t)(Tripped(with(in, func(in *TrippedInputs) { in.Ambient = q("74 °C") })))
	expect.Near(t, "Cooling at 74 °C", r.Cooling, "0.6 W", 1e-12)
	// At the boundary half of the supply is across the load; beyond it the
	// current stays.
	for _, load := range []string{"120 Ω", "300 Ω"} {
		r = expect.Result[TrippedResult](t)(Tripped(with(in, func(in *TrippedInputs) { in.Load = q(load) })))
		expect.Near(t, "Current at the boundary", r.Current, "0.1 A", 1e-7)
	}
	if r.Margin.SI() >= 0 {
		t.Errorf("with 300 Ω it resets, yet Margin is %v", r.Margin)
	}
	r = expect.Result[TrippedResult](t)(Tripped(with(in, func(in *TrippedInputs) { in.Load = q("0 Ω") })))
	expect.Near(t, "Current into a short circuit", r.Current, "50 mA", 1e-12)
	expect.Near(t, "Resistance", r.Resistance, "480 Ω", 1e-12)
}

// Sources: clamping voltages and pulse currents of 600 W diodes (check 07-08);
// Vishay, Determining clamping voltage levels, document 88446, 2007, and
// Microsemi MicroNote 108, by Clark and Walters: VC = IP/IPP · (VCmax −
// VBRmax) + VBRmax, with VBRmax = 1.11 · VBRmin for a part of 5 %. Breakdowns
// of SMBJ12A (13.3 V at least), 18A (20.0 V), 26A (28.9 V), 36A (40.0 V) from
// memory.
func TestClampingVoltages(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		standOff, least, clamping, current string
		half                               string // at half of the current, by hand
	}{
		{"12 V", "13.3 V", "19.9 V", "30.2 A", "17.3315 V"},
		{"18 V", "20.0 V", "29.2 V", "20.5 A", "25.7 V"},
		{"26 V", "28.9 V", "42.1 V", "14.2 A", "37.0895 V"},
		{"36 V", "40.0 V", "58.1 V", "10.3 A", "51.25 V"},
	} {
		s := Suppressor{StandOff: q(test.standOff), Breakdown: q(test.least).Mul(units.Number(1.11)), Clamping: q(test.clamping), PeakCurrent: q(test.current)}
		in := ClampInputs{Suppressor: s, Working: q("10 V"), Current: q(test.current), Limit: q("70 V")}
		c := expect.Result[ClampResult](t)(Clamp(in))
		expect.Near(t, "Voltage at the rated current", c.Voltage, test.clamping, 1e-12)
		expect.Near(t, "Power at the rated current", c.Power, "600 W", 4e-3)
		in.Current = c.LargestCurrent // the inverse
		expect.Near(t, "Voltage at LargestCurrent", expect.Result[ClampResult](t)(Clamp(in)).Voltage, "70 V", 1e-12)
		in.Current = q(test.current).Div(units.Number(2))
		expect.Near(t, "Voltage at half of it", expect.Result[ClampResult](t)(Clamp(in)).Voltage, test.half, 1e-9)
	}
	// Source: ST SM15T data sheet: ΔVBR = αT · (T − 25) · VBR at 25 °C; numbers by
	// hand: 42.1 V · (1 + 0.001 · 60) = 44.626 V.
	s := clamp36()
	s.Tempco, s.Temperature = q("0.1 %/K"), q("85 °C")
	c := expect.Result[ClampResult](t)(Clamp(ClampInputs{Suppressor: s, Working: q("32 V"), Current: q("0 A"), Limit: q("60 V")}))
	expect.Near(t, "Breakdown at 85 °C", c.Breakdown, "44.626 V", 1e-12)
	expect.Near(t, "Voltage without current", c.Voltage, "44.626 V", 1e-12)
	expect.Near(t, "WorkingMargin", c.WorkingMargin, "4 V", 1e-12)
}

// flat is a clamp of one voltage.
func flat(voltage string) Suppressor {
	return Suppressor{StandOff: q(voltage), Breakdown: q(voltage), Clamping: q(voltage).Mul(units.Number(1 + 1e-9)), PeakCurrent: q("1 A")}
}

// Sources: check 07-09 (Semtech PortDG0411): 1 kV through 2 Ω, 0.5, 1 and 2 kV
// through 42 Ω; 07-10 (from memory): 12 Ω from line to earth, 83.3 A, and a
// clamp at 42.1 V behind 42 Ω at 1 kV, (1000 − 42.1)/42 = 22.807 A. A clamp of
// a millivolt is none.
func TestSurgeCurrents(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ level, coupling, clamp, want string }{
		{"1 kV", "", "1 mV", "500 A"}, {"500 V", "40 Ω", "1 mV", "11.90476 A"}, {"1 kV", "40 Ω", "1 mV", "23.80952 A"}, {"2 kV", "40 Ω", "1 mV", "47.61905 A"},
		{"1 kV", "10 Ω", "1 mV", "83.33333 A"}, {"1 kV", "40 Ω", "42.1 V", "22.807143 A"},
	} {
		in := SurgeInputs{Suppressor: flat(test.clamp), Level: q(test.level), Rated: q("600 W"), RatedTime: q("1 ms"), Working: q("1 mV"), Limit: q("60 V")}
		if test.coupling != "" {
			in.Coupling = q(test.coupling)
		}
		expect.Near(t, test.level+" "+test.coupling, expect.Result[SurgeResult](t)(Surge(in)).Current, test.want, 3e-6)
	}
	// By hand: 1000 V − 42.1 V over 42 Ω + 1.5533981 Ω: 21.993690 A; · 1.5533981 Ω
	// + 42.1 V = 76.265 V; √(1 ms/50 µs) · 600 W = 2.6832816 kW.
	in := SurgeInputs{Suppressor: clamp36(), Level: q("1 kV"), Coupling: q("40 Ω"), Rated: q("600 W"), RatedTime: q("1 ms"), Working: q("32 V"), Limit: q("80 V")}
	s := expect.Result[SurgeResult](t)(Surge(in))
	expect.Near(t, "Current", s.Current, "21.99369 A", 1e-6)
	expect.Near(t, "Voltage", s.Voltage, "76.264955 V", 1e-6)
	expect.Near(t, "Allowed", s.Allowed, "2.6832816 kW", 1e-7)
	expect.Near(t, "Energy", s.Energy, "120.9939 mJ", 1e-4) // 1677.35 W · 50 µs/0.693147
	expect.Near(t, "Integral", s.Integral, "0.0174466 A²·s", 1e-5)
	// Below the breakdown nothing flows, and the level passes; both sides agree.
	s = expect.Result[SurgeResult](t)(Surge(with(in, func(in *SurgeInputs) { in.Level = q("40 V") })))
	expect.Near(t, "Voltage below the breakdown", s.Voltage, "40 V", 1e-12)
	if s.Current.SI() != 0 || s.Energy.SI() != 0 {
		t.Errorf("below the breakdown %v flow", s.Current)
	}
	s = expect.Result[SurgeResult](t)(Surge(with(in, func(in *SurgeInputs) { in.Level = q("42.1 V") })))
	expect.Near(t, "Voltage at the breakdown", s.Voltage, "42.1 V", 1e-12)
}

// Sources: law of the root, from memory of the curves of 600 W diodes: some 4
// kW at 20 µs, and 190 W at 10 ms; by hand: 600 W · √50 = 4.2426407 kW, 600 W/√10
// = 189.73666 W. Half way to 150 °C half is left.
func TestPulsePowers(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ time, temperature, want string }{
		{"1 ms", "25 °C", "600 W"}, {"20 µs", "25 °C", "4.2426407 kW"}, {"10 ms", "25 °C", "189.73666 W"}, {"1 ms", "87.5 °C", "300 W"}, {"1 ms", "-40 °C", "600 W"}, {"1 ms", "160 °C", "0 W"},
	} {
		p := expect.Result[PulsePowerResult](t)(PulsePower(PulsePowerInputs{Rated: q("600 W"), RatedTime: q("1 ms"), Time: q(test.time), Temperature: q(test.temperature)}))
		expect.Near(t, test.time+" "+test.temperature, p.Allowed, test.want, 1e-8)
	}
	// By a curve of its own, straight on logarithmic axes: 10 µs 5 kW, 1 ms 600 W; at
	// 100 µs √(5000 · 600) = 1.7320508 kW.
	curve := expect.Table("time [s] log, power [W] log\n1e-5, 5000\n1e-3, 600")
	p := expect.Result[PulsePowerResult](t)(PulsePower(PulsePowerInputs{Rated: q("600 W"), RatedTime: q("1 ms"), Time: q("100 µs"), Curve: curve}))
	expect.Near(t, "Allowed by a curve", p.Allowed, "1.7320508 kW", 1e-8)
	expect.Near(t, "TimeFactor by a curve", p.TimeFactor, "2.886751346", 1e-9)
	surge := expect.Result[SurgeResult](t)(Surge(SurgeInputs{Suppressor: clamp36(), Level: q("500 V"), Duration: q("100 µs"), Rated: q("600 W"), RatedTime: q("1 ms"), Curve: curve, Working: q("32 V"), Limit: q("80 V")}))
	expect.Near(t, "Allowed by a curve", surge.Allowed, "1.7320508 kW", 1e-8)
	h := expect.Result[ClampHeatResult](t)(ClampHeat(ClampHeatInputs{Energy: q("15 mJ"), Interval: q("50 ms"), Ambient: q("60 °C"), ThermalResistance: q("100 K/W"), Limit: q("125 °C")}))
	expect.Near(t, "Average", h.Average, "0.3 W", 1e-12)
	expect.Near(t, "Junction", h.Junction, "90 °C", 1e-12)
	expect.Near(t, "ShortestInterval", h.ShortestInterval, "23.076923 ms", 1e-7)
}

// Source: IEC 61000-4-2 as printed in ST ST3237EB, table 11 (check 07-11).
func TestDischargeCurrents(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ level, first, at30, at60 string }{
		{"2 kV", "7.5 A", "4 A", "2 A"}, {"4 kV", "15 A", "8 A", "4 A"}, {"6 kV", "22.5 A", "12 A", "6 A"}, {"8 kV", "30 A", "16 A", "8 A"},
	} {
		d := expect.Result[DischargeResult](t)(Discharge(DischargeInputs{Level: q(test.level), Breakdown: q("6 V"), DynamicResistance: q("0.5 Ω"), Inductance: q("1 nH"), Limit: q("20 V")}))
		expect.Near(t, "FirstPeak", d.FirstPeak, test.first, 1e-12)
		expect.Near(t, "At30", d.At30, test.at30, 1e-12)
		expect.Near(t, "At60", d.At60, test.at60, 1e-12)
	}
	d := expect.Result[DischargeResult](t)(Discharge(DischargeInputs{Level: q("8 kV"), Breakdown: q("6 V"), DynamicResistance: q("0.5 Ω"), Inductance: q("1 nH"), Limit: q("20 V")}))
	expect.Near(t, "Voltage30", d.Voltage30, "14 V", 1e-12)
	expect.Near(t, "Margin", d.Margin, "6 V", 1e-12)
	expect.Near(t, "InductiveStep", d.InductiveStep, "30 V", 1e-12) // 1 nH · 24 A/0.8 ns
	expect.Near(t, "FirstVoltage", d.FirstVoltage, "51 V", 1e-12)
	expect.Near(t, "MostInductance", d.MostInductance, "0.2 nH", 1e-12)
	expect.Near(t, "Charge", d.Charge, "1.2 µC", 1e-12)
	expect.Near(t, "Energy", d.Energy, "4.8 mJ", 1e-12)
	c := expect.Result[DischargeCapacitorResult](t)(DischargeIntoCapacitor(q("8 kV"), q("100 nF"), q("50 V")))
	expect.Near(t, "Voltage", c.Voltage, "11.982027 V", 1e-7) // 1.2 µC/100.15 nF
	expect.Near(t, "Voltage of Least", expect.Result[DischargeCapacitorResult](t)(DischargeIntoCapacitor(q("8 kV"), c.Least, q("50 V"))).Voltage, "50 V", 1e-12)
}
