package capacitor

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
)

// Every message of the package that is not argument's own, exactly, and for
// each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	bias := expect.Table("bias [V], kept [%]\n0, 100\n4, 70\n6, 50")
	ceramic := func(change func(in *CeramicInputs)) error {
		in := class2()
		in.Kept = bias
		change(&in)
		return e(Ceramic(in))
	}
	life := func(change func(in *LifeInputs)) error { in := rated(); change(&in); return e(Life(in)) }
	volts := func(change func(in *VoltageInputs)) error {
		in := VoltageInputs{Rated: q("16 V"), Applied: q("5 V"), Use: q("50 %"), Temperature: q("60 °C"), Full: q("85 °C"), Last: q("125 °C"), LastShare: q("67 %")}
		change(&in)
		return e(VoltageDerating(in))
	}
	m := expect.Table("frequency [Hz] log, multiplier [1]\n120, 1\n1e5, 1.5")
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"no code", e(TemperatureCode("")), `capacitor.TemperatureCode: "" is no code of EIA-198: write the three signs, such as X7R, X5R, Y5V or C0G`},
		{"unknown temperature", e(TemperatureCode("X3R")), `capacitor.TemperatureCode: "X3R" is no code of EIA-198: write the three signs, such as X7R, X5R, Y5V or C0G`},
		{"unknown slope", e(TemperatureCode("C0X")), `capacitor.TemperatureCode: "C0X" is no code of EIA-198: write the three signs, such as X7R, X5R, Y5V or C0G`},
		{"class 2 as printed", ceramic(func(in *CeramicInputs) { in.Kept = table.Table{} }), "capacitor.Ceramic: Kept is not given for a part of class 2, whose printed value is not there under bias: give the curve from bias to the share kept, from its data sheet"},
		{"class 2 for ever young", ceramic(func(in *CeramicInputs) { in.Age = none }), "capacitor.Ceramic: Ageing or Age is not given for a part of class 2, which loses capacitance with time: give both, such as 2.5 % in a decade of hours and 10 years"},
		{"too cold", ceramic(func(in *CeramicInputs) { in.Coldest = q("-60 °C") }), "capacitor.Ceramic: Coldest is −60 °C; it must not be below the lowest temperature of X5R, −55 °C: the code says nothing there; take a part for it"},
		{"too hot", ceramic(func(in *CeramicInputs) { in.Hottest = q("90 °C") }), "capacitor.Ceramic: Hottest is 90 °C; it must not be above the highest temperature of X5R, 85 °C: the code says nothing there; take a part for it"},
		{"exchanged", ceramic(func(in *CeramicInputs) { in.Coldest, in.Hottest = in.Hottest, in.Coldest }), "capacitor.Ceramic: Hottest is −20 °C; it must not be below Coldest, 60 °C: exchange them"},
		{"all of it missing", ceramic(func(in *CeramicInputs) { in.Tolerance = q("100 %") }), "capacitor.Ceramic: Tolerance is 100 %; it must be below everything, 1: write the share that may be missing"},
		{"aged away", ceramic(func(in *CeramicInputs) { in.Ageing = q("25 %") }), "capacitor.Ceramic: what Age takes is 125 %; it must be below everything, 1: check Ageing, which is a few percent in a decade"},
		{"too many", ceramic(func(in *CeramicInputs) { in.Count = 101 }), "capacitor.Ceramic: Count is 101; it must be from 1 to 100: write how many are in parallel"},
		{"no components", e(RippleCurrent(nil, m)), "capacitor.RippleCurrent: the number of components is 0; it must be from 1 to 100: write each frequency with its current"},
		{"component without a frequency", e(RippleCurrent([]Component{{RMS: q("1 A")}}, m)), "capacitor.RippleCurrent: Frequency of component 1 is not given, or is the bare number 0: write its frequency, such as 100 kHz"},
		{"ESR of nothing", e(ESR(q("0"), q("120 Hz"), q("1 mF"))), "capacitor.ESR: loss is 0; it must be above 0 %: write its share, such as 60 %"},
		{"heat without ESR", e(Heating(HeatingInputs{Current: q("1 A"), Resistance: q("20 K/W"), Ambient: q("60 °C")})), "capacitor.Heating: ESR is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"core too hot", life(func(in *LifeInputs) { in.Ambient, in.Ripple = q("105 °C"), q("1.1 A") }), "capacitor.Life: the core is 111 °C; it must not be above that at the rating, 110 °C: lower Ripple or Ambient, or take a part with more of either"},
		{"rated above all", life(func(in *LifeInputs) { in.RatedAmbient = q("200 °C") }), "capacitor.Life: RatedAmbient is 200 °C; it must not be above what such capacitors stand, 175 °C: take it from the data sheet's life, such as 105 °C"},
		{"below all", life(func(in *LifeInputs) { in.Ambient = q("-70 °C") }), "capacitor.Life: Ambient is −70 °C; it must not be below what such capacitors stand, −55 °C: give the air at the capacitor"},
		{"rise as a temperature", life(func(in *LifeInputs) { in.RatedRise = q("5 °C") }), "capacitor.Life: RatedRise is 5 °C; it must be a temperature difference: write it in K, such as 5 K"},
		{"no rise", life(func(in *LifeInputs) { in.RatedRise = q("0 K") }), "capacitor.Life: RatedRise is 0 K; it must not be below a tenth of a kelvin, 100 mK: makers give 5 K to 10 K"},
		{"much rise", life(func(in *LifeInputs) { in.RatedRise = q("70 K") }), "capacitor.Life: RatedRise is 70 K; it must not be above 60 K, 60 K: makers give 5 K to 10 K"},
		{"exponent", life(func(in *LifeInputs) { in.Exponent = math.NaN() }), "capacitor.Life: Exponent is NaN; it must be from 0 to 12: take it from the maker's guide, or leave it out"},
		{"voltage without an exponent", life(func(in *LifeInputs) { in.Voltage = q("30 V") }), "capacitor.Life: Voltage is 30 V, but without an Exponent it does not count: give that, or leave Voltage out"},
		{"too much voltage", life(func(in *LifeInputs) { in.Exponent, in.Voltage, in.RatedVoltage = 2.5, q("40 V"), q("35 V") }), "capacitor.Life: Voltage is 40 V; it must not be above RatedVoltage, 35 V: take a part for a higher voltage"},
		{"no factor", e(Leakage(LeakageInputs{Capacitance: q("1 mF"), Voltage: q("30 V")})), "capacitor.Leakage: Factor is not given, or is the bare number 0: write its share, such as 60 %"},
		{"use above everything", volts(func(in *VoltageInputs) { in.Use = q("150 %") }), "capacitor.VoltageDerating: Use is 150 %; it must not be above everything, 1: write the share that is to be used"},
		{"hotter than the last", volts(func(in *VoltageInputs) { in.Temperature = q("130 °C") }), "capacitor.VoltageDerating: Temperature is 130 °C; it must not be above Last, 125 °C: the part is not made for it; cool it, or take another"},
		{"ends exchanged", volts(func(in *VoltageInputs) { in.Full, in.Last = in.Last, in.Full }), "capacitor.VoltageDerating: Last is 85 °C; it must be above Full, 125 °C: exchange them"},
		{"more than is left", volts(func(in *VoltageInputs) { in.Applied, in.Temperature = q("14 V"), q("105 °C") }), "capacitor.VoltageDerating: Applied is 14 V; it must not be above what is left of Rated, 13.36 V: take a part for a higher voltage, or cool it"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
	// A bias outside the curve is refused with its range.
	if err := ceramic(func(in *CeramicInputs) { in.Bias = q("9 V") }); err == nil {
		t.Error("a bias outside the curve is taken")
	}
}
