package ripple

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

func supply() RectifierInputs {
	return RectifierInputs{Arrangement: Bridge, Input: q("24 V"), Frequency: q("50 Hz"), Diode: q("0.9 V"), Capacitance: q("2.2 mF"), LoadPower: q("12 W")}
}

func chain() FilterInputs {
	return FilterInputs{
		Source: q("50 mΩ"), Load: q("10 Ω"), Frequency: q("100 kHz"),
		Sections: []Section{
			{Inductance: q("10 µH"), Resistance: q("20 mΩ"), Capacitance: q("10 µF"), ESR: q("5 mΩ"), Damping: q("47 µF"), DampingESR: q("0.4 Ω")},
			{Resistance: q("1 Ω"), Capacitance: q("1 µF")},
		},
	}
}

// Every case of a value with spread is what the function gives of the exact
// value in it, and nothing on the way decides for all cases or drops the
// spread. Without holds the results that do not depend on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	wide := units.Range(q("18 V"), q("24 V"), q("30 V"))
	farads := units.Tolerance(q("2.2 mF"), q("60 %"))
	for _, test := range []struct {
		name    string
		value   units.Quantity
		call    func(x units.Quantity) (any, error)
		without []string
	}{
		{"Rectifier, input", wide, func(x units.Quantity) (any, error) { in := supply(); in.Input = x; return box(Rectifier(in)) }, []string{"Drop", "ResistanceLoss"}},
		{"Rectifier, capacitance", farads, func(x units.Quantity) (any, error) {
			in := supply()
			in.Capacitance, in.LoadPower, in.LoadCurrent = x, none, q("0.5 A")
			return box(Rectifier(in))
		}, []string{"Amplitude", "Drop", "Peak", "Reverse", "ResistanceLoss"}},
		// The current's largest value is inside the pulse in some cases and at
		// its start in others.
		{"Rectifier, resistance", units.Range(q("0.4 Ω"), q("10 Ω"), q("100 Ω")), func(x units.Quantity) (any, error) {
			in := supply()
			in.LoadPower, in.LoadResistance = none, x
			return box(Rectifier(in))
		}, []string{"Amplitude", "Drop", "Peak", "Reverse", "ResistanceLoss"}},
		{"RectifierWithSource, input", wide, func(x units.Quantity) (any, error) {
			in := supply()
			in.Input, in.Resistance = x, q("1.5 Ω")
			return box(RectifierWithSource(in))
		}, []string{"Drop"}},
		{"RectifierWithSource, resistance", units.Range(q("0.1 Ω"), q("1 Ω"), q("5 Ω")), func(x units.Quantity) (any, error) {
			in := supply()
			in.Arrangement, in.LoadPower, in.LoadCurrent, in.Resistance = HalfWave, none, q("0.2 A"), x
			return box(RectifierWithSource(in))
		}, []string{"Amplitude", "Drop", "Reverse", "UsualRipple", "UsualPulsePeak"}},
		{"RectifierWithSource, load", units.Range(q("20 Ω"), q("100 Ω"), q("1 kΩ")), func(x units.Quantity) (any, error) {
			in := supply()
			in.Arrangement, in.LoadPower, in.LoadResistance, in.Resistance = FullWave, none, x, q("2 Ω")
			return box(RectifierWithSource(in))
		}, []string{"Amplitude", "Drop", "Reverse"}},
		{"Inrush", wide, func(x units.Quantity) (any, error) {
			return box(Inrush(InrushInputs{Arrangement: FullWave, Input: x, Resistance: q("1 Ω"), Capacitance: q("1 mF")}))
		}, []string{"TimeConstant"}},
		{"HoldUp, power", farads, func(x units.Quantity) (any, error) {
			return box(HoldUp(HoldUpInputs{Capacitance: x, Start: q("30 V"), Stop: q("15 V"), LoadPower: q("12 W"), Efficiency: q("85 %")}))
		}, []string{"Taken", "MeanCurrent"}},
		{"HoldUp, resistance", wide, func(x units.Quantity) (any, error) {
			return box(HoldUp(HoldUpInputs{Capacitance: q("1 mF"), Start: x, Stop: q("15 V"), LoadResistance: q("100 Ω")}))
		}, []string{"Taken"}},
		{"HoldUp, current", wide, func(x units.Quantity) (any, error) {
			return box(HoldUp(HoldUpInputs{Capacitance: q("1 mF"), Start: x, Stop: q("15 V"), LoadCurrent: q("1 A")}))
		}, []string{"Taken", "MeanCurrent"}},
		{"HoldUpCapacitor", wide, func(x units.Quantity) (any, error) {
			return box(HoldUpCapacitor(HoldUpCapacitorInputs{Time: q("20 ms"), Start: x, Stop: q("15 V"), LoadPower: q("12 W"), Tolerance: q("20 %")}))
		}, []string{"Kept"}},
		{"RC", farads, func(x units.Quantity) (any, error) {
			return box(RC(RCInputs{Resistance: q("10 Ω"), Capacitance: x, Load: q("1 kΩ"), Frequency: q("10 Hz")}))
		}, []string{"Parallel", "Direct"}},
		{"RCTime", units.Range(q("-2 V"), q("1 V"), q("2.9 V")), func(x units.Quantity) (any, error) {
			return box(RCTime(RCTimeInputs{Resistance: q("10 kΩ"), Capacitance: q("1 µF"), Source: q("3.3 V"), Start: q("-3 V"), End: x}))
		}, []string{"TimeConstant"}},
		{"Bleed", wide, func(x units.Quantity) (any, error) {
			return box(Bleed(BleedInputs{Capacitance: q("1 mF"), Resistance: q("10 kΩ"), Start: x, Safe: q("12 V")}))
		}, nil},
		// Below, at and above the resonance.
		{"LC", units.Range(q("1 kHz"), q("15.9 kHz"), q("1 MHz")), func(x units.Quantity) (any, error) {
			return box(LC(LCInputs{Inductance: q("10 µH"), Winding: q("20 mΩ"), Capacitance: q("10 µF"), ESR: q("5 mΩ"), Load: q("10 Ω"), Frequency: x}))
		}, []string{"Characteristic", "Resonance", "LossShare"}},
		{"Damping", units.Tolerance(q("10 µF"), q("40 %")), func(x units.Quantity) (any, error) {
			return box(Damping(DampingInputs{Inductance: q("10 µH"), Capacitance: x, Damping: q("47 µF")}))
		}, nil},
		// With a peak in some cases and without one in others.
		{"Filter", units.Range(q("0.1 Ω"), q("10 Ω"), q("1 kΩ")), func(x units.Quantity) (any, error) {
			in := chain()
			in.Load = x
			return box(Filter(in))
		}, nil},
	} {
		expect.Spread(t, test.name, test.value, test.call, test.without...)
	}
}

// A case that the supply does not carry is named.
func TestFailingCaseIsNamed(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	in := supply()
	in.Resistance, in.Input = q("5 Ω"), study.Place("Vac", "Vac", units.Range(q("12 V"), q("24 V"), q("27 V")))
	_, err := RectifierWithSource(in)
	if want := "ripple.RectifierWithSource: the source does not carry a load of 12 W through 5 Ω where Vac is 12 V; the reservoir runs empty: lower the load or Resistance, or raise Input or Capacitance"; err == nil || err.Error() != want {
		t.Errorf("got %v", err)
	}
}
