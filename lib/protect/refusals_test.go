package protect

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// Every message of the package that is not argument's or table's own, exactly,
// and for each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	var none units.Quantity
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	supply := study.Place("Vin", "Vin", units.Range(q("18 V"), q("24 V"), q("38 V")))
	fuse := FuseInputs{Rated: q("5 A"), Family: "UL 248", Load: q("3 A"), Supply: q("32 V"), Voltage: q("63 V"), Fault: q("40 A"), Breaking: q("50 A")}
	fuseWith := func(change func(*FuseInputs)) error { return e(Fuse(with(fuse, change))) }
	ptcWith := func(change func(*ResettableInputs)) error { return e(Resettable(with(resettable(), change))) }
	tripped := TrippedInputs{Supply: q("24 V"), Load: q("1 Ω"), Power: q("1.2 W"), Ambient: q("40 °C")}
	clamp := ClampInputs{Suppressor: clamp36(), Working: q("32 V"), Current: q("5 A"), Limit: q("60 V")}
	clampWith := func(change func(*ClampInputs)) error { return e(Clamp(with(clamp, change))) }
	surge := SurgeInputs{Suppressor: clamp36(), Level: q("1 kV"), Rated: q("600 W"), RatedTime: q("1 ms"), Working: q("32 V"), Limit: q("60 V")}
	pulse := PulsePowerInputs{Rated: q("600 W"), RatedTime: q("1 ms"), Time: q("20 µs")}
	plug := HotPlugInputs{Supply: q("24 V"), Inductance: q("1 µH"), Resistance: q("50 mΩ"), Capacitance: q("10 µF"), Limit: q("40 V")}
	plugWith := func(change func(*HotPlugInputs)) error { return e(HotPlug(with(plug, change))) }
	damping := DampingInputs{Supply: q("24 V"), Inductance: q("1 µH"), Resistance: q("50 mΩ"), Capacitance: q("10 µF"), Limit: q("23.5 V")}
	ntc := ThermistorInputs{Supply: q("24 V"), Capacitance: q("2.2 mF"), Resistance: q("5 Ω"), Constant: q("3000 K"), Ambient: q("25 °C"), Load: q("2 A"), Dissipation: q("12 mW/K"), Hottest: q("170 °C"), Rating: q("5 J")}
	ntcWith := func(change func(*ThermistorInputs)) error { return e(Thermistor(with(ntc, change))) }
	valve := InductiveInputs{Supply: q("24 V"), Inductance: q("0.2 H"), Resistance: q("48 Ω"), Current: q("0.5 A"), Clamp: q("20 V"), Rating: q("60 V")}
	diode := ReverseDiodeInputs{Supply: q("24 V"), Load: q("2 A"), Forward: q("0.45 V"), Rating: q("30 V"), Held: q("24 V")}
	gate := ReverseSwitchInputs{Supply: q("24 V"), Load: q("2 A"), Resistance: q("20 mΩ"), Needed: q("10 V"), GateRating: q("20 V"), GateClamp: q("12 V"), GateResistor: q("100 kΩ"), Rating: q("60 V")}
	gateWith := func(change func(*ReverseSwitchInputs)) error { return e(ReverseSwitch(with(gate, change))) }
	over := DisconnectInputs{Reference: q("2.5 V"), Upper: q("127 kΩ"), Lower: q("10 kΩ"), Feedback: q("300 kΩ"), High: q("5 V"), Working: q("32 V"), Limit: q("40 V")}
	divider := DisconnectDividerInputs{Disconnect: q("36 V"), Reconnect: q("34 V"), Reference: q("2.5 V"), Upper: q("127 kΩ"), High: q("5 V")}
	failed := FailedShortInputs{Supply: q("18 V"), Source: q("3 Ω"), Rated: q("3 A"), Family: "IEC 60127", Melting: q("8 A²·s"), Clearing: q("20 A²·s")}
	soa := SafeAreaInputs{Area: area(), Voltage: q("24 V"), Current: q("1 A"), Time: q("10 ms")}
	chain := ChainInputs{Stages: input(), Supply: q("24 V"), Source: q("0.1 Ω"), Load: q("0.4 A")}
	stage := func(change func(*ChainStage)) error {
		return e(Chain(with(chain, func(in *ChainInputs) { in.Stages = input(); change(&in.Stages[1]) })))
	}
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		// The impossible designs.
		{"the fuse blows in operation", fuseWith(func(in *FuseInputs) { in.Load = q("4 A") }), "protect.Fuse: Load is 4 A, 250 mA above what the fuse carries for years at Ambient, 3.75 A: it would blow in operation; raise Rated, or lower Load or Ambient"},
		{"its voltage", fuseWith(func(in *FuseInputs) { in.Supply = q("70 V") }), "protect.Fuse: Supply is 70 V, 7 V above the fuse's Voltage, 63 V: its arc would not go out; choose a fuse with a higher DC voltage"},
		{"it bursts", fuseWith(func(in *FuseInputs) { in.Fault = q("1 kA") }), "protect.Fuse: Fault is 1 kA, 950 A above the fuse's Breaking capacity, 50 A: it would burst; choose a fuse with a higher breaking capacity, or put resistance before it"},
		{"it trips hot at normal load", ptcWith(func(in *ResettableInputs) { in.Load = q("0.9 A") }), "protect.Resettable: Load is 900 mA, 119 mA above the hold current at Ambient, 781 mA: it trips in operation; choose a larger one, or lower Load or Ambient"},
		{"it never trips", ptcWith(func(in *ResettableInputs) { in.LeastFault = q("1.2 A") }), "protect.Resettable: LeastFault is 1.2 A, 362 mA below the trip current at Ambient, 1.562 A: such a fault never trips it; choose a smaller one, or a fuse"},
		{"its voltage when tripped", ptcWith(func(in *ResettableInputs) { in.Supply = q("72 V") }), "protect.Resettable: Supply is 72 V, 12 V above the fuse's Voltage, 60 V: it burns when it trips; choose one with a higher Voltage"},
		{"its largest fault", ptcWith(func(in *ResettableInputs) { in.Fault = q("100 A") }), "protect.Resettable: Fault is 100 A, 60 A above the fuse's LargestFault, 40 A: it burns in such a fault; choose one for more, or put resistance before it"},
		{"the clamp below the working voltage", clampWith(func(in *ClampInputs) { in.Working = q("38 V") }), "protect.Clamp: Working is 38 V, 2 V above the clamp's StandOff, 36 V: it would conduct in operation; choose a clamp with a higher StandOff"},
		{"the clamp below the working voltage in one case", clampWith(func(in *ClampInputs) { in.Working = supply }), "protect.Clamp: Working is 38 V where Vin is 38 V, 2 V above the clamp's StandOff, 36 V: it would conduct in operation; choose a clamp with a higher StandOff"},
		{"stand-off above what the part survives", clampWith(func(in *ClampInputs) { in.Limit = q("33 V") }), "protect.Clamp: Limit is 33 V, 3 V below the clamp's StandOff, 36 V: the protected part is gone before the clamp begins; choose a lower StandOff or a part that survives more"},
		{"breakdown above what the part survives", clampWith(func(in *ClampInputs) { in.Limit = q("40 V") }), "protect.Clamp: Limit is 40 V; it must be above the clamp's breakdown at Temperature, 42.1 V: the protected part is gone before the clamp conducts; choose a lower Breakdown or a part that survives more"},
		{"the same of a surge", e(Surge(with(surge, func(in *SurgeInputs) { in.Working = q("38 V") }))), "protect.Surge: Working is 38 V, 2 V above the clamp's StandOff, 36 V: it would conduct in operation; choose a clamp with a higher StandOff"},
		{"a discharge above what the part survives", e(Discharge(DischargeInputs{Level: q("8 kV"), Breakdown: q("6 V"), DynamicResistance: q("0.5 Ω"), Limit: q("5.5 V")})), "protect.Discharge: Limit is 5.5 V; it must be above Breakdown, 6 V: the protected part is gone before the clamp conducts; choose a lower Breakdown or a part that survives more"},
		{"the fuse may never open", e(FailedShort(failed)), "protect.FailedShort: the fault current over Rated is 2, 0.1 below the multiple at which IEC 60127 promises opening, 2.1: the fuse may never open and the failed clamp burns; lower Rated or Source"},
		{"no damping keeps it", e(HotPlugDamping(damping)), "protect.HotPlugDamping: Limit is 23.5 V, 500 mV below what a hundredfold damping capacitor leaves, 24 V: no damping keeps it; shorten the cable, add a clamp or a series resistance, or choose a part that survives more"},
		{"the thermistor overheats", ntcWith(func(in *ThermistorInputs) { in.Load = q("9 A") }), "protect.Thermistor: the loss of Load at Hottest is 15.05 W, 13.31 W above what is cooled there, 1.74 W: the load overheats it; lower Load or Ambient, or choose a larger thermistor"},
		{"the clamp conducts all the time", e(InductiveTurnOff(valve)), "protect.InductiveTurnOff: Clamp is 20 V; it must be above Supply, 24 V: a clamp across the switch conducts all the time then; raise Clamp, or write AcrossLoad: true"},
		{"the diode breaks down", e(ReverseDiode(diode)), "protect.ReverseDiode: the reverse voltage is 48 V, 18 V above Rating, 30 V: the diode breaks down; choose one with a higher Rating, or clamp Reversed"},
		{"the gate breaks through", gateWith(func(in *ReverseSwitchInputs) { in.GateClamp, in.GateResistor = none, none }), "protect.ReverseSwitch: the gate voltage is 24 V, 4 V above GateRating, 20 V: the gate breaks through; add a GateClamp below it, with a GateResistor"},
		{"the gate is not driven", gateWith(func(in *ReverseSwitchInputs) { in.Supply = q("8 V") }), "protect.ReverseSwitch: the gate voltage is 8 V, 2 V below Needed, 10 V: the transistor is not on; choose one for less gate voltage, a higher GateClamp, or a driver"},
		{"the transistor breaks down", gateWith(func(in *ReverseSwitchInputs) { in.Reversed = q("64 V") }), "protect.ReverseSwitch: the reverse voltage is 64 V, 4 V above Rating, 60 V: the transistor breaks down; choose one with a higher Rating, or clamp Reversed"},
		{"nothing is left behind the transistor", gateWith(func(in *ReverseSwitchInputs) { in.Resistance = q("13 Ω") }), "protect.ReverseSwitch: Supply is 24 V; it must be above the drop of Load in Resistance, 26 V: nothing is left behind the transistor; lower Load or Resistance"},
		{"nothing is left behind the diode", e(ReverseDiode(with(diode, func(in *ReverseDiodeInputs) { in.Supply = q("0.3 V"); in.Held = none }))), "protect.ReverseDiode: Supply is 300 mV; it must be above Forward, 450 mV: nothing is left behind the diode; raise Supply"},
		{"it never reconnects", e(Disconnect(with(over, func(in *DisconnectInputs) { in.Feedback = q("1 kΩ") }))), "protect.Disconnect: the supply that reconnects is −283.2 V; it must be above zero, 0 V: it would stay off for ever; raise Feedback, for less hysteresis"},
		{"the chain cannot carry the load", e(Chain(with(chain, func(in *ChainInputs) { in.Load = q("200 A") }))), "protect.Chain: what Load drops in Source and Stages is 42.5 V, 18.5 V above Supply, 24 V: the chain cannot carry the load; lower Load or the resistances"},
		{"nothing blocks", e(Chain(with(chain, func(in *ChainInputs) { in.Stages, in.Reversed = input()[:2], true }))), "protect.Chain: no stage Blocks, so a reversed supply of 24 V reaches the end: add a diode or a switch, and write Blocks: true"},
		{"nothing flows", e(Chain(with(chain, func(in *ChainInputs) { in.Supply, in.Shorted = q("0.3 V"), true }))), "protect.Chain: what the stages drop without current is 500 mV, 200 mV above Supply, 300 mV: nothing flows at all; lower their Forward"},

		// Inputs that make no sense.
		{"family", fuseWith(func(in *FuseInputs) { in.Family = "slow" }), `protect.Fuse: Family is "slow": write "UL 248" or "IEC 60127"`},
		{"share", fuseWith(func(in *FuseInputs) { in.Share = q("120 %") }), "protect.Fuse: Share is 120 %; it must not be above all of Rated, 1: write a smaller share"},
		{"ambient without a curve", fuseWith(func(in *FuseInputs) { in.Ambient = q("60 °C") }), "protect.Fuse: Ambient is 60 °C, but there is no Derating to read at it: give the curve of the data sheet, or leave Ambient out"},
		{"ambient outside the curve", ptcWith(func(in *ResettableInputs) { in.Ambient = q("90 °C") }), "protect.Resettable: the table: ambient is 90 °C; the column goes from −40 °C to 85 °C: add rows there, or say with Held() that the end values hold"},
		{"no curve", ptcWith(func(in *ResettableInputs) { in.Hold = table.Table{} }), `protect.Resettable: Hold is not given: write a table whose columns are in °C and A, such as Table("file.csv") or table.Text("…")`},
		{"after a trip", ptcWith(func(in *ResettableInputs) { in.AfterTrip = q("0.1 Ω") }), "protect.Resettable: AfterTrip is 100 mΩ; it must not be below Resistance, 200 mΩ: a trip raises the resistance; take both from the data sheet, such as R min and R1 max"},
		{"trip below hold", ptcWith(func(in *ResettableInputs) { in.Trip = expect.Table("t [°C], I [A]\n0, 0.7\n85, 0.6") }), "protect.Resettable: the trip current at Ambient is 629.4 mA; it must not be below the hold current there, 781 mA: take both tables from one data sheet"},
		{"two trip times", ptcWith(func(in *ResettableInputs) { in.TripTimes = expect.Table("fault [A], time [s]\n2, 20\n8, 0.32") }), "protect.Resettable: TripTimes: TripIntegral is 4 A²·s, but TripTimes already says when it trips: leave one of them out"},
		{"shape", e(PulseIntegral(PulseInputs{Shape: "sawtooth", Peak: q("1 A"), Time: q("1 ms")})), `protect.PulseIntegral: Shape is "sawtooth": write "rectangle", "triangle", "trapezoid", "half sine", "square law" or "exponential"`},
		{"base", e(PulseIntegral(PulseInputs{Shape: "triangle", Peak: q("1 A"), Base: q("0.5 A"), Time: q("1 ms")})), `protect.PulseIntegral: Base is 500 mA, but only a trapezoid has one: leave it out, or write Shape: "trapezoid"`},
		{"base above peak", e(PulseIntegral(PulseInputs{Shape: "trapezoid", Peak: q("1 A"), Base: q("2 A"), Time: q("1 ms")})), "protect.PulseIntegral: Base is 2 A; it must not be above Peak, 1 A: write the higher end as Peak"},
		{"capacitor", e(CapacitorPulse(CapacitorPulseInputs{Voltage: q("24 V"), Capacitance: q("470 µF")})), "protect.CapacitorPulse: Resistance is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"pulses", e(FusePulse(FusePulseInputs{Integral: q("1 A²·s"), Melting: q("2 A²·s"), Pulses: q("0.5")})), "protect.FusePulse: Pulses is 0.5; it must not be below a single one, 1: write how many the fuse sees in its life"},
		{"too many pulses", e(FusePulse(FusePulseInputs{Integral: q("1 A²·s"), Melting: q("2 A²·s"), Pulses: q("1000000")})), "protect.FusePulse: the table: pulses is 1000000; the column goes from 1 to 100000: add rows there, or say with Held() that the end values hold"},
		{"clearing", e(FuseClearing(ClearingInputs{Clearing: q("12 A"), Fault: q("80 A"), Withstand: q("50 A²·s")})), "protect.FuseClearing: Clearing is 12 A; it must be a Joule integral: write it in A²·s, such as 2 A²·s"},
		{"selectivity", e(FuseSelectivity(none, q("60 A²·s"))), "protect.FuseSelectivity: clearing is not given, or is the bare number 0: write its Joule integral, such as 2 A²·s"},
		{"melting above clearing", e(FailedShort(with(failed, func(in *FailedShortInputs) { in.Source, in.Melting = q("0.1 Ω"), q("30 A²·s") }))), "protect.FailedShort: Clearing is 20 A²·s; it must not be below Melting, 30 A²·s: the arc adds to the melting integral"},
		{"tripped in hot air", e(Tripped(with(tripped, func(in *TrippedInputs) { in.Ambient = q("130 °C") }))), "protect.Tripped: Temperature is 125 °C; it must be above Ambient, 130 °C: in air that hot the fuse is tripped without any current; lower Ambient"},
		{"reference", e(Tripped(with(tripped, func(in *TrippedInputs) { in.Reference = q("130 °C") }))), "protect.Tripped: Temperature is 125 °C; it must be above Reference, 130 °C: write the ambient for which the data sheet gives Power as Reference"},
		{"breakdown below stand-off", clampWith(func(in *ClampInputs) { in.Suppressor.Breakdown = q("30 V") }), "protect.Clamp: Suppressor: Breakdown is 30 V; it must not be below StandOff, 36 V: take both from one row of the data sheet"},
		{"clamping below breakdown", clampWith(func(in *ClampInputs) { in.Suppressor.Clamping = q("40 V") }), "protect.Clamp: Suppressor: Clamping is 40 V; it must be above Breakdown, 42.1 V: Clamping is the largest voltage at PeakCurrent; take both from one row of the data sheet"},
		{"a coefficient of another sign", clampWith(func(in *ClampInputs) { in.Suppressor.Tempco, in.Suppressor.Temperature = q("-5 %/K"), q("85 °C") }), "protect.Clamp: Suppressor: the breakdown at Temperature is −84.2 V; it must be above zero, 0 V: write Tempco per kelvin, such as 0.1 %/K"},
		{"a part that is too hot", clampWith(func(in *ClampInputs) { in.Suppressor.Tempco, in.Suppressor.Temperature = q("1 %/K"), q("85 °C") }), "protect.Clamp: Suppressor: Clamping is 58.1 V; it must be above the breakdown at Temperature, 67.36 V: lower Temperature, or check Tempco"},
		{"a short pulse", e(PulsePower(with(pulse, func(in *PulsePowerInputs) { in.Time = q("10 ns") }))), "protect.PulsePower: Time is 10 ns; it must not be below a ten thousandth of RatedTime, 100 ns: so short a pulse leaves the law of the root; give the data sheet's Curve"},
		{"a long pulse", e(PulsePower(with(pulse, func(in *PulsePowerInputs) { in.Time = q("1 s") }))), "protect.PulsePower: Time is 1 s; it must not be above ten times RatedTime, 10 ms: so long a pulse leaves the law of the root; give the data sheet's Curve, or compute its heat with ClampHeat"},
		{"the corners", e(PulsePower(with(pulse, func(in *PulsePowerInputs) { in.Zero = q("20 °C") }))), "protect.PulsePower: Zero is 20 °C; it must be above Full, 25 °C: take both corners from the derating curve"},
		{"heat without a limit", e(ClampHeat(ClampHeatInputs{Energy: q("15 mJ"), Interval: q("50 ms"), Ambient: q("130 °C"), ThermalResistance: q("100 K/W"), Limit: q("125 °C")})), "protect.ClampHeat: Limit is 125 °C; it must be above Ambient, 130 °C: nothing is left for the clamp; lower Ambient"},
		{"no capacitor is needed", e(DischargeIntoCapacitor(q("20 V"), q("100 nF"), q("50 V"))), "protect.DischargeIntoCapacitor: level is 20 V; it must be above limit, 50 V: a part that survives the level needs no capacitor"},
		{"resistance", plugWith(func(in *HotPlugInputs) { in.Resistance = q("1 kΩ") }), "protect.HotPlug: the circuit: Resistance is 1 kΩ; it must not be above a thousand times √(L/C), 316.2 Ω: the inductance does not count then; use CapacitorPulse, or check the prefix"},
		{"no resistance", plugWith(func(in *HotPlugInputs) { in.Resistance = q("1 nΩ") }), "protect.HotPlug: the circuit: Resistance is 1 nΩ; it must not be below a small part of √(L/C), 316.2 nΩ: no such circuit has so little; check its prefix"},
		{"half a branch", plugWith(func(in *HotPlugInputs) { in.Damping = q("47 µF") }), "protect.HotPlug: DampingResistance is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"a branch too small", plugWith(func(in *HotPlugInputs) { in.Damping, in.DampingResistance = q("1 nF"), q("0.3 Ω") }), "protect.HotPlug: Damping is 1 nF; it must not be below a hundredth of Capacitance, 100 nF: so little does not damp; raise Damping, usually to four times Capacitance"},
		{"a branch too large", plugWith(func(in *HotPlugInputs) { in.Damping, in.DampingResistance = q("1 F"), q("0.3 Ω") }), "protect.HotPlug: Damping is 1 F; it must not be above a thousand times Capacitance, 10 mF: beside so much the ceramic one does not count; write what filters as Capacitance"},
		{"inrush", e(Inrush(InrushInputs{Supply: q("24 V"), Capacitance: q("1 mF"), Rating: q("1 J")})), "protect.Inrush: Resistor is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"constant", ntcWith(func(in *ThermistorInputs) { in.Constant = q("30 K") }), "protect.Thermistor: Constant is 30 K; it must not be below what thermistors have, 500 K: take B from the data sheet, such as 3000 K"},
		{"constant of another size", ntcWith(func(in *ThermistorInputs) { in.Constant = q("39500 K") }), "protect.Thermistor: Constant is 39500 K; it must not be above what thermistors have, 10000 K: take B from the data sheet, such as 3000 K"},
		{"hot before", ntcWith(func(in *ThermistorInputs) { in.Ambient = q("180 °C") }), "protect.Thermistor: Hottest is 170 °C; it must be above Ambient, 180 °C: nothing is left for the load; lower Ambient"},
		{"too cold", ntcWith(func(in *ThermistorInputs) { in.Ambient = q("-100 °C") }), "protect.Thermistor: Ambient is −100 °C; it must not be below what thermistors work at, −60 °C: check its sign"},
		{"too hot", ntcWith(func(in *ThermistorInputs) { in.Hottest = q("500 °C") }), "protect.Thermistor: Hottest is 500 °C; it must not be above what thermistors survive, 400 °C: take it from the data sheet"},
		{"slope", e(SlopeInrush(SlopeInputs{Supply: q("24 V"), Capacitance: q("1 mF"), Slope: q("1 V")})), "protect.SlopeInrush: Slope is 1 V; it must be a slope of a voltage: write it in V/s, such as 1 V/ms"},
		{"area", e(SafeArea(with(soa, func(in *SafeAreaInputs) { in.Voltage = q("80 V") }))), "protect.SafeArea: the table: drain voltage is 80 V; the column goes from 10 V to 60 V: add rows there, or say with Held() that the end values hold"},
		{"case", e(SafeArea(with(soa, func(in *SafeAreaInputs) { in.Case = q("160 °C") }))), "protect.SafeArea: Zero is 150 °C; it must be above Case, 160 °C: nothing is left for a pulse; lower Case"},
		{"highest temperature", e(SafeArea(with(soa, func(in *SafeAreaInputs) { in.Zero = q("20 °C") }))), "protect.SafeArea: Zero is 20 °C; it must be above the temperature of the table, 25 °C: take the highest junction temperature of the data sheet"},
		{"snubber", e(InductiveSnubber(SnubberInputs{Supply: q("24 V"), Inductance: q("0.1 H"), Winding: q("48 Ω"), Current: q("0.5 A"), Capacitance: q("1 µF"), Rating: q("250 V")})), "protect.InductiveSnubber: Resistance is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"clamp without resistor", gateWith(func(in *ReverseSwitchInputs) { in.GateResistor = none }), "protect.ReverseSwitch: GateResistor is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"outputs exchanged", e(Disconnect(with(over, func(in *DisconnectInputs) { in.Low = q("6 V") }))), "protect.Disconnect: High is 5 V; it must be above Low, 6 V: High is the output that says too high"},
		{"no hysteresis", e(DisconnectDivider(with(divider, func(in *DisconnectDividerInputs) { in.Reconnect = q("36 V") }))), "protect.DisconnectDivider: Disconnect is 36 V; it must be above Reconnect, 36 V: without hysteresis it chatters"},
		{"reference too high", e(DisconnectDivider(with(divider, func(in *DisconnectDividerInputs) { in.Reference = q("40 V") }))), "protect.DisconnectDivider: upper/lower is −0.5; it must be above zero, 0: Reference is too high for these thresholds, or the hysteresis too wide; lower one"},
		{"no stages", e(Chain(ChainInputs{Supply: q("24 V"), Source: q("0.1 Ω")})), "protect.Chain: Stages is empty: write at least one stage"},
		{"rating without blocking", stage(func(s *ChainStage) { s.Rating = q("60 V") }), "protect.Chain: stage 2, fuse: Rating is 60 V, but only a stage that blocks a reversed supply has one: write Blocks: true, or leave it out"},
		{"clamp without resistance", stage(func(s *ChainStage) { s.ClampResistance = none }), "protect.Chain: stage 2, fuse: ClampResistance is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"clamp of no resistance", stage(func(s *ChainStage) { s.ClampResistance = q("1 nΩ") }), "protect.Chain: stage 2, fuse: ClampResistance is 1 nΩ; it must not be below a microohm, 1 µΩ: take it from the line between breakdown and clamping voltage, as Clamp does"},
		{"half a clamp", stage(func(s *ChainStage) { s.Breakdown = none }), "protect.Chain: stage 2, fuse: ClampForward is 1 V, but there is no clamp: give its Breakdown, or leave it out"},
		{"blocking without rating", e(Chain(with(chain, func(in *ChainInputs) { in.Stages = input(); in.Stages[2].Rating = none }))), "protect.Chain: stage 3, diode: Rating is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}
