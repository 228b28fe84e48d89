package ripple

import (
	"testing"

	"ohmwright/lib/internal/expect"
)

// Every message of the package that is not argument's own, exactly, and for
// each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	stiff := func(change func(in *RectifierInputs)) error { in := supply(); change(&in); return e(Rectifier(in)) }
	soft := func(change func(in *RectifierInputs)) error {
		in := supply()
		in.Resistance = q("1 Ω")
		change(&in)
		return e(RectifierWithSource(in))
	}
	hold := func(change func(in *HoldUpInputs)) error {
		in := HoldUpInputs{Capacitance: q("1 mF"), Start: q("30 V"), Stop: q("15 V"), LoadPower: q("12 W")}
		change(&in)
		return e(HoldUp(in))
	}
	time := func(source, start, end string) error {
		return e(RCTime(RCTimeInputs{Resistance: q("1 kΩ"), Capacitance: q("1 µF"), Source: q(source), Start: q(start), End: q(end)}))
	}
	filter := func(change func(in *FilterInputs)) error { in := chain(); change(&in); return e(Filter(in)) }
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"no arrangement", stiff(func(in *RectifierInputs) { in.Arrangement = Arrangement{} }), `ripple.Rectifier: Arrangement is not given, or is "": write ripple.HalfWave, ripple.FullWave or ripple.Bridge`},
		{"another arrangement", soft(func(in *RectifierInputs) { in.Arrangement.Name = "star" }), `ripple.RectifierWithSource: Arrangement is not given, or is "star": write ripple.HalfWave, ripple.FullWave or ripple.Bridge`},
		{"no load", stiff(func(in *RectifierInputs) { in.LoadPower = none }), "ripple.Rectifier: the load is not given, or given twice: write LoadCurrent for a linear regulator, LoadPower for a switching one, or LoadResistance, and one of them only"},
		{"two loads", hold(func(in *HoldUpInputs) { in.LoadCurrent = q("1 A") }), "ripple.HoldUp: the load is not given, or given twice: write LoadCurrent for a linear regulator, LoadPower for a switching one, or LoadResistance, and one of them only"},
		{"load of another kind", stiff(func(in *RectifierInputs) { in.LoadPower = q("1 A") }), "ripple.Rectifier: LoadPower is 1 A; it must be a power: write it in W, such as 500 mW"},
		{"resistance at a stiff source", stiff(func(in *RectifierInputs) { in.Resistance = q("1 Ω") }), "ripple.Rectifier: Resistance is 1 Ω, but this function is for a source without any: use RectifierWithSource"},
		{"no resistance", soft(func(in *RectifierInputs) { in.Resistance = none }), "ripple.RectifierWithSource: Resistance is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"source below the diodes", stiff(func(in *RectifierInputs) { in.Input = q("1 V") }), "ripple.Rectifier: the peak of Input is 1.414 V; it must be above the diodes in its way, 1.8 V: no current flows; raise Input"},
		{"load of no account", stiff(func(in *RectifierInputs) { in.LoadPower = q("1 pW") }), "ripple.Rectifier: the ripple is 141.4 fV; it must not be below a billionth of the output, 32.14 nV: so light a load makes none that counts; write the load at its largest, or a smaller Capacitance"},
		{"no reservoir beside a resistance", stiff(func(in *RectifierInputs) { in.LoadPower, in.LoadResistance = none, q("0.1 Ω") }), "ripple.Rectifier: 2π · Frequency · LoadResistance · Capacitance is 0.06912; it must not be below a fifth, 0.2: so small a reservoir keeps nothing up; raise Capacitance, or lower the load"},
		{"current faster than the source", stiff(func(in *RectifierInputs) { in.LoadPower, in.LoadCurrent = none, q("30 A") }), "ripple.Rectifier: LoadCurrent is 30 A; it must be below what the reservoir gives while it follows the source, 23.43 A: raise Capacitance, or lower the load"},
		{"power faster than the source", stiff(func(in *RectifierInputs) { in.LoadPower = q("400 W") }), "ripple.Rectifier: LoadPower is 400 W; it must be below what the reservoir gives while it follows the source, 368.5 W: raise Capacitance, or lower the load"},
		{"the reservoir runs empty", stiff(func(in *RectifierInputs) { in.LoadPower = q("300 W") }), "ripple.Rectifier: the time in which the load empties the reservoir is 2.987 ms; it must be above the time until the source charges it again, 3.69 ms: raise Capacitance or Input, or lower the load"},
		{"a source too weak", soft(func(in *RectifierInputs) { in.Resistance = q("10 Ω") }), "ripple.RectifierWithSource: the source does not carry a load of 12 W through 10 Ω; the reservoir runs empty: lower the load or Resistance, or raise Input or Capacitance"},
		{"a source too weak for a current", soft(func(in *RectifierInputs) { in.LoadPower, in.LoadCurrent, in.Resistance = none, q("2 A"), q("10 Ω") }), "ripple.RectifierWithSource: LoadCurrent is 2 A; it must be below what the source gives into a short circuit, 1.984 A: lower the load or Resistance, or raise Input"},
		{"resistance of no account", soft(func(in *RectifierInputs) { in.Resistance = q("1 mΩ") }), "ripple.RectifierWithSource: 2π · Frequency · Resistance · Capacitance is 0.0006912; it must not be below a two-hundredth, 0.005: so little resistance does not shape the pulse; take Rectifier"},
		{"resistance above all", soft(func(in *RectifierInputs) { in.Resistance, in.LoadPower, in.LoadCurrent = q("10 MΩ"), none, q("1 µA") }), "ripple.RectifierWithSource: 2π · Frequency · Resistance · Capacitance is 6912000; it must not be above a million, 1000000: the reservoir does not settle; lower Resistance or Capacitance"},
		{"inrush below the diodes", e(Inrush(InrushInputs{Arrangement: HalfWave, Input: q("0.4 V"), Diode: q("0.7 V"), Resistance: q("1 Ω"), Capacitance: q("1 mF")})), "ripple.Inrush: the peak of Input is 565.7 mV; it must be above the diodes in its way, 700 mV: no current flows; raise Input"},
		{"held up from too low", hold(func(in *HoldUpInputs) { in.Start = q("12 V") }), "ripple.HoldUp: Start is 12 V; it must be above Stop, 15 V: nothing is left to hold the load up; raise the voltage or lower the lockout"},
		{"more than all of it", hold(func(in *HoldUpInputs) { in.Efficiency = q("110 %") }), "ripple.HoldUp: Efficiency is 110 %; it must not be above everything, 1: write what comes out over what goes in"},
		{"efficiency of a resistance", hold(func(in *HoldUpInputs) { in.LoadPower, in.LoadResistance, in.Efficiency = none, q("100 Ω"), q("90 %") }), "ripple.HoldUp: Efficiency is 90 %, but the load is not a LoadPower, as a converter takes it: give that, or leave Efficiency out"},
		{"all lost", e(HoldUpCapacitor(HoldUpCapacitorInputs{Time: q("1 ms"), Start: q("30 V"), Stop: q("15 V"), LoadPower: q("12 W"), Life: q("100 %")})), "ripple.HoldUpCapacitor: Life is 100 %; it must be below everything, 1: write the share that is lost"},
		{"RC without a frequency", e(RC(RCInputs{Resistance: q("1 Ω"), Capacitance: q("1 F")})), "ripple.RC: Frequency is not given, or is the bare number 0: write its frequency, such as 100 kHz"},
		{"nowhere to go", time("5 V", "5 V", "5 V"), "ripple.RCTime: the way from Start to Source is 0 V; it must be above none, 0 V: nothing changes; check both"},
		{"away from the end", time("5 V", "2 V", "1 V"), "ripple.RCTime: the way to End, as a share of that to Source, is −0.3333; it must not be below none, 0: the capacitor goes away from End; exchange Start and End, or check Source"},
		{"never there", time("5 V", "0 V", "5 V"), "ripple.RCTime: the way to End, as a share of that to Source, is 1; it must be below all of it, 1: a capacitor never quite gets there; write an End that is nearer to Start"},
		{"nothing to bleed", e(Bleed(BleedInputs{Capacitance: q("1 mF"), Resistance: q("1 kΩ"), Start: q("48 V"), Safe: q("60 V")})), "ripple.Bleed: Start is 48 V; it must be above Safe, 60 V: it may be touched at once; nothing is to be discharged"},
		{"without any loss at the resonance", e(LC(LCInputs{Inductance: q("1 H"), Capacitance: q("1 F"), Frequency: q("1 Hz").Div(q("1").Mul(of(6.283185307179586, "")))})), "ripple.LC: what the input is over the output is 0; it must not be below a trillionth, 1e-12: at its resonance a filter without loss has no limit; give Winding, ESR or Load"},
		{"little damping", e(Damping(DampingInputs{Inductance: q("10 µH"), Capacitance: q("10 µF"), Damping: q("10 nF")})), "ripple.Damping: Damping/Capacitance is 0.001; it must not be below a hundredth, 0.01: so little does not damp; raise Damping, usually to four times Capacitance"},
		{"much damping", e(Damping(DampingInputs{Inductance: q("10 µH"), Capacitance: q("10 µF"), Damping: q("1 F")})), "ripple.Damping: Damping/Capacitance is 100000; it must not be above a thousandfold, 1000: beside so much the other does not count; write what filters as Capacitance"},
		{"no sections", filter(func(in *FilterInputs) { in.Sections = nil }), "ripple.Filter: the number of Sections is 0; it must be from 1 to 8: write each section once"},
		{"nothing in series", filter(func(in *FilterInputs) { in.Sections[1].Resistance = none }), "ripple.Filter: section 2: neither Resistance nor Inductance is given: without either a section filters nothing; write what stands in series"},
		{"damping without a resistor", filter(func(in *FilterInputs) { in.Sections[0].DampingESR = none }), "ripple.Filter: section 1: DampingESR is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}
