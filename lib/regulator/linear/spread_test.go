package linear

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Every case of a result is what the function gives of the exact values in
// it, whatever regime the case is in; nothing on the way drops a spread or
// decides for all cases. Without holds how many quantities of the result
// depend on none of the values that spread.
func TestEveryCaseIsComputedByItself(t *testing.T) {
	t.Parallel()
	curve := expect.Table("load [mA], dropout [mV]\n0, 20\n200, 100\n500, 450")
	curves := expect.Table(`load [mA], junction [°C], dropout [mV]
		0, 0, 20
		200, 0, 100
		500, 0, 450
		0, 60, 30
		210, 60, 300
		500, 60, 500
		0, 125, 20
		200, 125, 100
		500, 125, 450`)

	for _, test := range []struct {
		name    string
		values  []string // each with ± 20 %, a temperature with ± 30 K, a level with ± 6 dB
		call    func(x []units.Quantity) (any, error)
		without int
	}{
		// The load is on both sides of the corner of each curve, the
		// temperature on both sides of the middle one.
		{"Dropout", []string{"200 mA", "60 °C"}, func(x []units.Quantity) (any, error) {
			return box(Dropout(curves, x[0], x[1]))
		}, 0},
		{"DropoutAtLoad", []string{"200 mA"}, func(x []units.Quantity) (any, error) { return box(DropoutAtLoad(curve, x[0])) }, 0},
		{"DropoutOfSwitch", []string{"450 mV", "280 mA"}, func(x []units.Quantity) (any, error) { return box(DropoutOfSwitch(x[0], q("500 mA"), x[1])) }, 0},
		// In some cases in regulation, in some dropped out.
		{"Headroom", []string{"3.8 V", "3.3 V", "450 mV", "100 mV"}, func(x []units.Quantity) (any, error) {
			return box(Headroom(HeadroomInputs{Input: x[0], Output: x[1], Dropout: x[2], Ripple: x[3]}))
		}, 0},
		{"GroundCurrent", []string{"200 mA"}, func(x []units.Quantity) (any, error) {
			return box(GroundCurrent(expect.Table("load [mA], ground [mA]\n0, 0.09\n200, 1\n500, 5"), x[0]))
		}, 0},
		{"Loss", []string{"5 V", "3.3 V", "60 mA", "90 µA"}, func(x []units.Quantity) (any, error) {
			return box(Loss(LossInputs{Input: x[0], Output: x[1], Load: x[2], Ground: x[3]}))
		}, 0},
		// The largest load is bounded by heat in some cases, by the rating in others.
		{"Heat", []string{"5 V", "280 mA", "1 mA", "50 °C", "62 K/W", "125 °C"}, func(x []units.Quantity) (any, error) {
			return box(Heat(HeatInputs{Input: x[0], Output: q("3.3 V"), Load: x[1], Ground: x[2], Ambient: x[3], Resistance: x[4], Limit: x[5], Rated: q("600 mA")}))
		}, 0},
		{"Setting", []string{"0.8 V", "37.4 kΩ", "12 kΩ", "50 nA", "3.3 V", "67 µA"}, func(x []units.Quantity) (any, error) {
			return box(Setting(SettingInputs{Reference: x[0], Upper: x[1], Lower: x[2], PinCurrent: x[3], Wanted: x[4], LeastLoad: x[5]}))
		}, 0},
		// The nearer end of both windows changes from case to case.
		{"OutputCapacitor", []string{"10 µF", "0.6", "300 mΩ", "200 mΩ"}, func(x []units.Quantity) (any, error) {
			return box(OutputCapacitor(OutputCapacitorInputs{
				Marked: x[0], Kept: x[1], ESR: x[2], Series: x[3], LeastCapacitance: q("2 µF"), MostCapacitance: q("10 µF"), LeastESR: q("100 mΩ"), MostESR: q("900 mΩ"),
			}))
		}, 0},
		{"ESRZero", []string{"10 µF", "1 Ω"}, func(x []units.Quantity) (any, error) {
			return box(ESRZero(ESRZeroInputs{Capacitance: x[0], Resistance: x[1], Lowest: q("5 kHz"), Highest: q("50 kHz")}))
		}, 0},
		{"LoadStep", []string{"200 mA", "5 µs", "10 µF", "20 mΩ"}, func(x []units.Quantity) (any, error) {
			return box(LoadStep(LoadStepInputs{Step: x[0], Response: x[1], Capacitance: x[2], ESR: x[3]}))
		}, 0},
		{"LoadStepCapacitor", []string{"200 mA", "5 µs", "20 mΩ"}, func(x []units.Quantity) (any, error) {
			return box(LoadStepCapacitor(LoadStepInputs{Step: x[0], Response: x[1], ESR: x[2], Allowed: q("100 mV")}))
		}, 1},
		{"InputDip", []string{"280 mA", "1 µH", "10 µF", "10 mΩ"}, func(x []units.Quantity) (any, error) {
			return box(InputDip(InputInputs{Step: x[0], Inductance: x[1], Capacitance: x[2], ESR: x[3]}))
		}, 0},
		{"InputCapacitor", []string{"280 mA", "1 µH", "10 mΩ", "100 mV"}, func(x []units.Quantity) (any, error) {
			return box(InputCapacitor(InputInputs{Step: x[0], Inductance: x[1], ESR: x[2], Allowed: x[3]}))
		}, 0},
		// Rings in some cases, is damped in others: 8 Ω is the boundary.
		{"HotPlug", []string{"24 V", "16 µH", "1 µF", "8 Ω"}, func(x []units.Quantity) (any, error) {
			return box(HotPlug(HotPlugInputs{Input: x[0], Inductance: x[1], Capacitance: x[2], Resistance: x[3], Rating: q("40 V")}))
		}, 0},
		{"Rejection", []string{"100 kHz"}, func(x []units.Quantity) (any, error) {
			return box(Rejection(expect.Table("frequency [kHz], rejection [dB]\n1, 60\n100, 25\n1000, 30"), x[0]))
		}, 0},
		{"RejectionOfLoop", []string{"60 dB", "1 kHz", "20 kHz"}, func(x []units.Quantity) (any, error) { return box(RejectionOfLoop(x[0], x[1], x[2])) }, 0},
		{"Ripple", []string{"50 mV", "45 dB"}, func(x []units.Quantity) (any, error) { return box(Ripple(x[0], x[1])) }, 0},
		{"NeededRejection", []string{"50 mV", "1 mV"}, func(x []units.Quantity) (any, error) { return box(NeededRejection(x[0], x[1])) }, 0},
		// In some cases nothing flows back.
		{"ReverseCurrent", []string{"5 V", "4.3 V", "700 mV", "200 mΩ", "100 µF"}, func(x []units.Quantity) (any, error) {
			return box(ReverseCurrent(ReverseInputs{Output: x[0], Input: x[1], Forward: x[2], Resistance: x[3], Capacitance: x[4], Rated: q("1 A")}))
		}, 0},
		// In some cases the clamp does not conduct.
		{"Surge", []string{"36 V", "500 mΩ", "36 V", "100 mA", "10 ms"}, func(x []units.Quantity) (any, error) {
			return box(Surge(SurgeInputs{Peak: x[0], Source: x[1], Clamp: x[2], Load: x[3], Duration: x[4], Rating: q("40 V"), Output: q("30 V")}))
		}, 0},
	} {
		study := units.NewStudy(units.StudyOptions{Boards: 20})
		var x []units.Quantity
		for _, text := range test.values {
			v := q(text)
			tolerance := q("20 %")
			switch v.Dim().Kind() {
			case units.PointScale:
				tolerance = q("30 K")
			case units.GainScale:
				tolerance = q("6 dB")
			}
			x = append(x, study.Place(text, text, units.Tolerance(v, tolerance)))
		}
		result := expect.EveryCase(t, test.name, study, x, test.call)
		without := 0
		for _, v := range result {
			if !v.HasSpread() {
				without++
			}
		}
		if without != test.without {
			t.Errorf("%s: %d quantities without spread, want %d: %v", test.name, without, test.without, result)
		}
	}
}
