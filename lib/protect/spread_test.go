package protect

import (
	"strings"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Every case of a value with spread is what the function gives of the exact
// value in it, on both sides of its boundary, and nothing on the way decides
// for all cases or drops the spread. Without holds what does not depend on the
// value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	supply := units.Range(q("18 V"), q("24 V"), q("32 V"))
	air := units.Range(q("-20 °C"), q("25 °C"), q("60 °C"))
	plug := HotPlugInputs{Supply: q("24 V"), Inductance: q("1 µH"), Resistance: q("0.1 Ω"), Capacitance: q("10 µF"), Limit: q("40 V")}
	shot := SurgeInputs{Suppressor: clamp36(), Level: q("1 kV"), Coupling: q("40 Ω"), Rated: q("600 W"), RatedTime: q("1 ms"), Working: q("32 V"), Limit: q("80 V")}
	valve := InductiveInputs{Supply: q("24 V"), Inductance: q("0.2 H"), Resistance: q("48 Ω"), Current: q("0.5 A"), Clamp: q("47 V"), Rating: q("60 V"), Frequency: q("2 Hz")}
	gate := ReverseSwitchInputs{Supply: q("24 V"), Load: q("2 A"), Resistance: q("20 mΩ"), Needed: q("10 V"), GateRating: q("20 V"), GateClamp: q("12 V"), GateResistor: q("100 kΩ"), Rating: q("60 V"), Leakage: q("1 µA")}
	chain := ChainInputs{Stages: input(), Supply: q("24 V"), Source: q("0.1 Ω"), Load: q("0.4 A")}
	for _, test := range []struct {
		name    string
		value   units.Quantity
		call    func(x units.Quantity) (any, error)
		without string
	}{
		{"PulseIntegral", units.Tolerance(q("10 A"), q("20 %")), func(x units.Quantity) (any, error) {
			return box(PulseIntegral(PulseInputs{Shape: "trapezoid", Peak: x, Base: q("4 A"), Time: q("5 ms")}))
		}, ""},
		{"CapacitorPulse", supply, func(x units.Quantity) (any, error) {
			return box(CapacitorPulse(CapacitorPulseInputs{Voltage: x, Capacitance: q("470 µF"), Resistance: q("0.3 Ω")}))
		}, "TimeConstant"},
		{"Fuse", units.Range(q("1 A"), q("2 A"), q("3 A")), func(x units.Quantity) (any, error) {
			return box(Fuse(FuseInputs{Rated: q("5 A"), Family: "UL 248", Load: x, Supply: q("32 V"), Voltage: q("63 V"), Fault: q("40 A"), Breaking: q("50 A"), Resistance: q("15 mΩ")}))
		}, "FamilyShare TemperatureShare Allowed VoltageMargin BreakingMargin"},
		{"Fuse, ambient", air, func(x units.Quantity) (any, error) {
			return box(Fuse(FuseInputs{Rated: q("5 A"), Family: "UL 248", Derating: expect.Table("t [°C], share [%]\n-40, 110\n23, 100\n85, 80"), Ambient: x, Load: q("1 A"), Supply: q("32 V"), Voltage: q("63 V"), Fault: q("40 A"), Breaking: q("50 A")}))
		}, "FamilyShare VoltageMargin BreakingMargin Drop Loss"},
		{"FusePulse", units.Range(q("10"), q("1000"), q("50000")), func(x units.Quantity) (any, error) {
			return box(FusePulse(FusePulseInputs{Integral: q("0.1 A²·s"), Melting: q("2 A²·s"), Pulses: x}))
		}, ""},
		{"FuseClearing", units.Range(q("20 A"), q("50 A"), q("80 A")), func(x units.Quantity) (any, error) {
			return box(FuseClearing(ClearingInputs{Clearing: q("12 A²·s"), Fault: x, Withstand: q("50 A²·s")}))
		}, "Margin Used"},
		{"FuseSelectivity", units.Tolerance(q("12 A²·s"), q("30 %")), func(x units.Quantity) (any, error) { return box(FuseSelectivity(x, q("60 A²·s"))) }, ""},
		{"FailedShort", supply, func(x units.Quantity) (any, error) {
			return box(FailedShort(FailedShortInputs{Supply: x, Source: q("0.3 Ω"), Shorted: q("0.1 Ω"), Rated: q("3 A"), Family: "UL 248", Melting: q("8 A²·s"), Clearing: q("20 A²·s"), Times: expect.Table("multiple [1] log, time [s] log\n2, 100\n10, 0.1\n20, 0.005\n100, 0.0001")}))
		}, "SurgeMargin"},
		{"Resettable", air, func(x units.Quantity) (any, error) {
			return box(Resettable(with(resettable(), func(in *ResettableInputs) { in.Ambient = x })))
		}, "VoltageMargin FaultMargin Drop DropAfterTrip LossAfterTrip"},
		{"Tripped", units.Range(q("10 Ω"), q("100 Ω"), q("300 Ω")), func(x units.Quantity) (any, error) {
			return box(Tripped(TrippedInputs{Supply: q("24 V"), Load: x, Power: q("1.2 W"), Ambient: q("40 °C")}))
		}, "Cooling LeastLoad"},
		{"Tripped, ambient", air, func(x units.Quantity) (any, error) {
			return box(Tripped(TrippedInputs{Supply: q("24 V"), Load: q("100 Ω"), Power: q("1.2 W"), Ambient: x}))
		}, ""},
		{"Clamp", units.Band(q("40 V"), q("42.1 V"), q("44.4 V")), func(x units.Quantity) (any, error) {
			s := clamp36()
			s.Breakdown, s.Tempco, s.Temperature = x, q("0.1 %/K"), q("60 °C")
			return box(Clamp(ClampInputs{Suppressor: s, Working: q("32 V"), Current: q("5 A"), Limit: q("60 V")}))
		}, "WorkingMargin"},
		{"Surge", units.Range(q("10 V"), q("500 V"), q("1 kV")), func(x units.Quantity) (any, error) {
			return box(Surge(with(shot, func(in *SurgeInputs) { in.Level = x })))
		}, "Breakdown DynamicResistance Impedance Allowed"},
		{"PulsePower", units.Range(q("0 °C"), q("50 °C"), q("160 °C")), func(x units.Quantity) (any, error) {
			return box(PulsePower(PulsePowerInputs{Rated: q("600 W"), RatedTime: q("1 ms"), Time: q("20 µs"), Temperature: x}))
		}, "TimeFactor"},
		{"ClampHeat", air, func(x units.Quantity) (any, error) {
			return box(ClampHeat(ClampHeatInputs{Energy: q("15 mJ"), Interval: q("50 ms"), Ambient: x, ThermalResistance: q("100 K/W"), Limit: q("125 °C")}))
		}, "Average"},
		{"Discharge", units.Range(q("2 kV"), q("4 kV"), q("8 kV")), func(x units.Quantity) (any, error) {
			return box(Discharge(DischargeInputs{Level: x, Breakdown: q("6 V"), DynamicResistance: q("0.5 Ω"), Inductance: q("1 nH"), Limit: q("20 V")}))
		}, ""},
		{"DischargeIntoCapacitor", units.Tolerance(q("100 nF"), q("50 %")), func(x units.Quantity) (any, error) { return box(DischargeIntoCapacitor(q("8 kV"), x, q("50 V"))) }, "Least"},
		{"HotPlug", units.Range(q("20 mΩ"), q("0.3 Ω"), q("1 Ω")), func(x units.Quantity) (any, error) {
			return box(HotPlug(with(plug, func(in *HotPlugInputs) { in.Resistance = x })))
		}, "Impedance Resonance Energy Heat LeastDamped"},
		{"HotPlug, damped", units.Tolerance(q("10 µF"), q("50 %")), func(x units.Quantity) (any, error) {
			return box(HotPlug(with(plug, func(in *HotPlugInputs) {
				in.Capacitance, in.Damping, in.DampingResistance = x, q("47 µF"), q("0.3 Ω")
			})))
		}, ""},
		{"HotPlugDamping", units.Range(q("30 V"), q("36 V"), q("60 V")), func(x units.Quantity) (any, error) {
			return box(HotPlugDamping(DampingInputs{Supply: q("24 V"), Inductance: q("1 µH"), Resistance: q("0.1 Ω"), Capacitance: q("10 µF"), Limit: x}))
		}, "Resistance"},
		{"Inrush", supply, func(x units.Quantity) (any, error) {
			return box(Inrush(InrushInputs{Supply: x, Capacitance: q("1 mF"), Source: q("0.1 Ω"), Resistor: q("10 Ω"), Load: q("0.1 A"), Rating: q("1 J")}))
		}, "TimeConstant Settled Drop Loss"},
		{"Thermistor", air, func(x units.Quantity) (any, error) {
			return box(Thermistor(ThermistorInputs{Supply: q("24 V"), Capacitance: q("2.2 mF"), Source: q("0.1 Ω"), Resistance: q("5 Ω"), Constant: q("3000 K"), Ambient: x, Load: q("2 A"), Dissipation: q("12 mW/K"), Hottest: q("170 °C"), Rating: q("5 J")}))
		}, ""},
		{"SlopeInrush", units.Range(q("3 Ω"), q("10 Ω"), q("100 Ω")), func(x units.Quantity) (any, error) {
			return box(SlopeInrush(SlopeInputs{Supply: q("24 V"), Capacitance: q("2.2 mF"), Slope: q("1 V/ms"), Load: q("0.2 A"), Resistance: x}))
		}, "Time Charging"},
		{"SafeArea", supply, func(x units.Quantity) (any, error) {
			return box(SafeArea(SafeAreaInputs{Area: area(), Voltage: x, Current: q("1 A"), Time: q("5 ms"), Case: q("60 °C")}))
		}, "TemperatureShare"},
		{"InductiveTurnOff", units.Range(q("1 mΩ"), q("48 Ω"), q("100 Ω")), func(x units.Quantity) (any, error) {
			return box(InductiveTurnOff(with(valve, func(in *InductiveInputs) { in.Resistance = x })))
		}, "Opposing SwitchVoltage Margin Stored PeakPower"},
		{"InductiveSnubber", units.Range(q("1 Ω"), q("100 Ω"), q("5 kΩ")), func(x units.Quantity) (any, error) {
			return box(InductiveSnubber(SnubberInputs{Supply: q("24 V"), Inductance: q("0.1 H"), Winding: q("48 Ω"), Current: q("0.5 A"), Resistance: x, Capacitance: q("1 µF"), Rating: q("250 V"), Frequency: q("1 Hz")}))
		}, "Impedance Heat Average"},
		{"ReverseDiode", supply, func(x units.Quantity) (any, error) {
			return box(ReverseDiode(ReverseDiodeInputs{Supply: x, Load: q("2 A"), Forward: q("0.45 V"), Leakage: q("5 mA"), Rating: q("60 V")}))
		}, "Loss"},
		{"ReverseSwitch", units.Range(q("11 V"), q("12 V"), q("32 V")), func(x units.Quantity) (any, error) {
			return box(ReverseSwitch(with(gate, func(in *ReverseSwitchInputs) { in.Supply = x })))
		}, "Drop Loss StartLoss"},
		{"Disconnect", units.Tolerance(q("2.5 V"), q("2 %")), func(x units.Quantity) (any, error) {
			return box(Disconnect(DisconnectInputs{Reference: x, Upper: q("127 kΩ"), Lower: q("10 kΩ"), Feedback: q("300 kΩ"), High: q("5 V"), Working: q("32 V"), Limit: q("40 V")}))
		}, "Hysteresis"},
		{"DisconnectDivider", units.Tolerance(q("2.5 V"), q("2 %")), func(x units.Quantity) (any, error) {
			return box(DisconnectDivider(DisconnectDividerInputs{Disconnect: q("36 V"), Reconnect: q("34 V"), Reference: x, Upper: q("127 kΩ"), High: q("5 V")}))
		}, "Feedback"},
		{"Chain", units.Range(q("18 V"), q("24 V"), q("80 V")), func(x units.Quantity) (any, error) {
			return box(Chain(with(chain, func(in *ChainInputs) { in.Supply = x })))
		}, "Stages[2].Current Stages[2].Drop Stages[2].Loss Stages[0].ClampCurrent Stages[0].ClampLoss Stages[2].ClampCurrent Stages[2].ClampLoss Stages[0].Margin Stages[1].Margin"},
		{"Chain, reversed", supply, func(x units.Quantity) (any, error) {
			return box(Chain(with(chain, func(in *ChainInputs) { in.Supply, in.Reversed = x, true })))
		}, "*"},
		{"Chain, shorted", supply, func(x units.Quantity) (any, error) {
			return box(Chain(with(chain, func(in *ChainInputs) { in.Supply, in.Shorted = x, true })))
		}, "*"},
	} {
		t.Run(test.name, func(t *testing.T) {
			t.Parallel()
			expect.Spread(t, test.name, test.value, test.call, strings.Fields(test.without)...)
		})
	}
}

// The worst corner is found, not assumed: an open design of supply, cable,
// capacitor and ESR has its highest voltage where no single input is at an end
// by a rule of thumb.
func TestBothRegimesInOneRange(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	in := HotPlugInputs{Supply: q("24 V"), Inductance: q("1 µH"), Resistance: study.Place("R", "R", units.Range(q("0.1 Ω"), q("0.3 Ω"), q("1 Ω"))), Capacitance: q("10 µF"), Limit: q("40 V")}
	low, high, ok := expect.Result[HotPlugResult](t)(HotPlug(in)).Peak.Limits()
	if !ok {
		t.Fatal("no limits")
	}
	expect.Near(t, "the lowest peak, of a circuit that does not ring", low, "24 V", 1e-12)
	expect.Near(t, "the highest", high, "38.5121 V", 1e-5)
}
