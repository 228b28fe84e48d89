package switching

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"

	"pgregory.net/rapid"
)

// Every message of the package that is not argument's own, exactly, and for
// each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	cycle := CycleInputs{OnVoltage: q("19 V"), OffVoltage: q("5 V"), Inductance: q("22 µH"), Frequency: q("400 kHz"), Mean: q("1 A")}
	cycleWith := func(change func(*CycleInputs)) error { in := cycle; change(&in); return e(Cycle(in)) }
	core := CoreLossInputs{Ripple: q("0.6 A"), Frequency: q("400 kHz"), ReferenceLoss: q("60 mW"), ReferenceRipple: q("0.5 A"), ReferenceFrequency: q("500 kHz"), Alpha: 1.4, Beta: 2.3}
	coreWith := func(change func(*CoreLossInputs)) error { in := core; change(&in); return e(CoreLoss(in)) }
	lockout := LockoutDividerInputs{Start: q("17 V"), Stop: q("15 V"), Rising: q("1.2 V"), Falling: q("1.1 V"), Extra: q("3 µA")}
	lockoutWith := func(change func(*LockoutDividerInputs)) error {
		in := lockout
		change(&in)
		return e(LockoutDivider(in))
	}
	filter := InputFilterInputs{Input: q("18 V"), Power: q("9 W"), Frequency: q("400 kHz"), Inductance: q("10 µH"), Capacitance: q("10 µF"), Damping: q("40 µF")}
	filterWith := func(change func(*InputFilterInputs)) error {
		in := filter
		change(&in)
		return e(InputFilter(in))
	}
	volts := expect.Table("bias [V], left [%]\n0, 100\n5, 50")
	rises := expect.Table("current [A], left [%]\n0, 50\n5, 100")
	short := expect.Table("current [A], left [%]\n0, 100\n1, 80")
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"negative voltage", cycleWith(func(in *CycleInputs) { in.OffVoltage = q("-5 V") }), "switching.Cycle: OffVoltage is −5 V; it must be above 0 V: check its sign and the formula it comes from"},
		{"no mean", cycleWith(func(in *CycleInputs) { in.Mean = none }), "switching.Cycle: Mean is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"negative winding", e(InductorLoss(InductorLossInputs{Mean: q("1 A"), AlternatingRMS: q("0 A"), Winding: q("-1 Ω")})), "switching.InductorLoss: Winding is −1 Ω; it must not be below 0 Ω: check its sign and the formula it comes from"},
		{"no curve", e(Saturation(SaturationInputs{Cycle: cycle})), "switching.Saturation: Curve is not given: write a table whose columns are in A and H, such as Table(\"file.csv\") or table.Text(\"…\")"},
		{"curve of another kind", e(Saturation(SaturationInputs{Cycle: cycle, Curve: volts})), "switching.Saturation: Curve: column 1 of the table (bias) is in V; it must be in A, or in another unit of that kind"},
		{"curve that rises", e(Saturation(SaturationInputs{Cycle: cycle, Curve: rises})), "switching.Saturation: the first inductance of Curve is 50 %; it must not be below the last, 100 %: an inductance falls as the current rises"},
		// 19 · 5/24 V · 2.5 µs/(2 · 0.8 · 22 µH) = 281.1 mA beside 1 A.
		{"beyond the curve", e(Saturation(SaturationInputs{Cycle: cycle, Curve: short})), "switching.Saturation: the peak with what the curve leaves at its end is 1.281 A; it must be below the last current of Curve, 1 A: the inductor saturates; take a larger one, or lower the load or the ripple"},
		{"saturation of no cycle", e(Saturation(SaturationInputs{Curve: short})), "switching.Saturation: OnVoltage is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"no gate supply", e(Edges(EdgesInputs{Blocked: q("5 V"), TurnOn: q("0 A"), TurnOff: q("1 A"), Frequency: q("1 MHz"), GateSupply: q("0 V")})), "switching.Edges: GateSupply is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},

		{"exponent", coreWith(func(in *CoreLossInputs) { in.Alpha = 0 }), "switching.CoreLoss: Alpha is 0; it must be from 1 to 2.5: take it from the curves of the core's material"},
		{"exponent not a number", coreWith(func(in *CoreLossInputs) { in.Beta = math.NaN() }), "switching.CoreLoss: Beta is NaN; it must be from 1.5 to 3.5: take it from the curves of the core's material"},
		{"far frequency", coreWith(func(in *CoreLossInputs) { in.Frequency = q("60 MHz") }), "switching.CoreLoss: Frequency/ReferenceFrequency is 120; it must be below a hundredfold, 100: the exponents hold near the reference only; take a nearer point of the curves"},
		{"far ripple", coreWith(func(in *CoreLossInputs) { in.Ripple = q("60 A") }), "switching.CoreLoss: Ripple/ReferenceRipple is 120; it must be below a hundredfold, 100: the exponents hold near the reference only; take a nearer point of the curves"},
		{"no bank", e(SoftStart(SoftStartInputs{Capacitor: q("10 nF"), Current: q("2 µA"), Reference: q("0.8 V"), Output: q("5 V")})), "switching.SoftStart: Bank is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
		{"exchanged", e(SoftStartCapacitor(q("2 µA"), q("4 ms"), q("0.8 V"))), "switching.SoftStartCapacitor: time is 2 µA; it must be a time: write it in s, such as 10 µs"},
		{"never stops", e(Lockout(LockoutInputs{Upper: q("1 MΩ"), Lower: q("1 MΩ"), Rising: q("1.2 V"), Extra: q("3 µA")})), "switching.Lockout: Stop is −600 mV; it must be above no input at all, 0 V: the pin's currents hold it up without an input; lower both resistors"},
		{"thresholds exchanged", lockoutWith(func(in *LockoutDividerInputs) { in.Falling = q("1.3 V") }), "switching.LockoutDivider: Falling is 1.3 V; it must not be above Rising, 1.2 V: the pin starts at the higher threshold; exchange them"},
		{"start too low", lockoutWith(func(in *LockoutDividerInputs) { in.Start, in.Stop = q("1 V"), q("0.5 V") }), "switching.LockoutDivider: Start is 1 V; it must be above Rising, 1.2 V: a divider only sets inputs above the pin's threshold; raise Start"},
		{"stop too high", lockoutWith(func(in *LockoutDividerInputs) { in.Stop = q("16 V") }), "switching.LockoutDivider: Stop is 16 V; it must be below Start · Falling/Rising, 15.58 V: the thresholds alone make more hysteresis than wanted; lower Stop"},
		{"no hysteresis current", lockoutWith(func(in *LockoutDividerInputs) { in.Extra = none }), "switching.LockoutDivider: Extra is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"filter above the frequency", filterWith(func(in *InputFilterInputs) { in.Frequency = q("10 kHz") }), "switching.InputFilter: Frequency is 10 kHz; it must be above the filter's resonance, 15.92 kHz: below it a filter does not filter; raise Inductance or Capacitance"},
		{"little damping", filterWith(func(in *InputFilterInputs) { in.Damping = q("10 nF") }), "switching.InputFilter: Damping/Capacitance is 0.001; it must not be below a hundredth, 0.01: so little does not damp; raise Damping, usually to four times Capacitance"},
		{"much damping", filterWith(func(in *InputFilterInputs) { in.Damping = q("1 F") }), "switching.InputFilter: Damping/Capacitance is 100000; it must not be above a thousandfold, 1000: beside so much the other does not count; write what filters as Capacitance"},
		{"little resistance", filterWith(func(in *InputFilterInputs) { in.Resistance = q("1 µΩ") }), "switching.InputFilter: Resistance is 1 µΩ; it must not be below a thousandth of the filter's impedance, 1 mΩ: so little does not damp; leave Resistance out for the best"},
		{"much resistance", filterWith(func(in *InputFilterInputs) { in.Resistance = q("1 MΩ") }), "switching.InputFilter: Resistance is 1 MΩ; it must not be above a thousand times the filter's impedance, 1 kΩ: so much does not damp; leave Resistance out for the best"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	curve := expect.Table("current [A], left [%]\n0, 100\n2, 80\n5, 50")
	unit := map[string]string{
		"OnVoltage": "V", "OffVoltage": "V", "Inductance": "H", "Frequency": "Hz", "Mean": "A", "AlternatingRMS": "A", "Winding": "Ω", "WindingAC": "Ω", "Core": "W",
		"Blocked": "V", "RectifierDrop": "V", "TurnOn": "A", "TurnOff": "A", "RiseTime": "s", "FallTime": "s", "NodeCapacitance": "F", "RecoveryCharge": "C", "GateCharge": "C",
		"GateSupply": "V", "DeadTime": "s", "BodyDiode": "V", "Ripple": "A", "ReferenceLoss": "W", "ReferenceRipple": "A", "ReferenceFrequency": "Hz",
		"Capacitor": "F", "Current": "A", "Reference": "V", "Output": "V", "Bank": "F", "Resistance": "Ω", "Upper": "Ω", "Lower": "Ω", "Rising": "V", "Falling": "V",
		"Pull": "A", "Extra": "A", "Start": "V", "Stop": "V", "Input": "V", "Power": "W", "Capacitance": "F", "Damping": "F",
	}
	rapid.Check(t, func(t *rapid.T) {
		draw, _ := expect.Manner(t)
		filler := expect.Filler{Units: unit, Draw: draw, Others: []any{[]table.Table{{}, curve}, []float64{1, 1.5, 2, 2.5, 3.5, 0, math.NaN()}}}
		for _, f := range []any{Cycle, Saturation, InductorLoss, Edges, CoreLoss, SoftStart, Lockout, LockoutDivider, InputFilter} {
			filler.Call(t, f, nil)
		}
	})
}
