package linear

import (
	"reflect"
	"strings"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Where a value must be above zero, zero and less are refused; where it must
// not be below zero, zero is taken and less is refused. The message starts
// with the function and the argument.
func TestBoundsOfEveryArgument(t *testing.T) {
	t.Parallel()
	curve := expect.Table("load [A], dropout [mV]\n0, 1\n1, 450")
	currents := expect.Table("load [A], ground [µA]\n0, 1\n1, 1000")
	points := expect.Table("frequency [Hz], rejection [dB]\n1, 60\n100k, 20")
	// Plain arguments, as if they were the fields of a struct.
	type three struct{ Stated, At, Load units.Quantity }
	type one struct{ Load units.Quantity }
	type frequency struct{ Frequency units.Quantity }
	type loop struct{ Low, Corner, Frequency units.Quantity }
	type two struct{ Input, Allowed units.Quantity }
	type ripple struct{ Input units.Quantity }
	step := LoadStepInputs{Step: q("200 mA"), Response: q("5 µs"), ESR: q("20 mΩ")}
	withCapacitor, withAllowed := step, step
	withCapacitor.Capacitance, withAllowed.Allowed = q("10 µF"), q("100 mV")
	feed := InputInputs{Step: q("280 mA"), Inductance: q("1 µH"), ESR: q("10 mΩ")}
	feedCapacitor, feedAllowed := feed, feed
	feedCapacitor.Capacitance, feedAllowed.Allowed = q("10 µF"), q("100 mV")
	for _, test := range []struct {
		in         any
		positive   string
		notBelow   string
		call       func(in any) error
		asArgument func(string) string // how a message spells the field
	}{
		{three{q("450 mV"), q("500 mA"), q("280 mA")}, "Stated At", "Load", func(in any) error {
			x := in.(three)
			_, err := DropoutOfSwitch(x.Stated, x.At, x.Load)
			return err
		}, strings.ToLower},
		{one{q("100 mA")}, "", "Load", func(in any) error { _, err := DropoutAtLoad(curve, in.(one).Load); return err }, strings.ToLower},
		{one{q("100 mA")}, "", "Load", func(in any) error { _, err := GroundCurrent(currents, in.(one).Load); return err }, strings.ToLower},
		{HeadroomInputs{q("5 V"), q("3.3 V"), q("450 mV"), q("100 mV")}, "Input Output", "Dropout Ripple", func(in any) error { _, err := Headroom(in.(HeadroomInputs)); return err }, nil},
		{LossInputs{q("5 V"), q("3.3 V"), q("1 A"), q("1 mA")}, "Input Output", "Load Ground", func(in any) error { _, err := Loss(in.(LossInputs)); return err }, nil},
		{HeatInputs{q("5 V"), q("3.3 V"), q("280 mA"), q("1 mA"), q("60 °C"), q("62 K/W"), q("125 °C"), q("1 A")}, "Input Output Resistance Rated", "Load Ground", func(in any) error { _, err := Heat(in.(HeatInputs)); return err }, nil},
		{SettingInputs{q("0.8 V"), q("37.4 kΩ"), q("12 kΩ"), q("1 nA"), q("3.3 V"), q("1 mA")}, "Wanted", "LeastLoad", func(in any) error { _, err := Setting(in.(SettingInputs)); return err }, nil},
		{OutputCapacitorInputs{q("10 µF"), q("60 %"), q("5 mΩ"), q("220 mΩ"), q("2.2 µF"), q("22 µF"), q("100 mΩ"), q("1 Ω")}, "Marked Kept ESR LeastCapacitance MostCapacitance MostESR", "Series LeastESR", func(in any) error { _, err := OutputCapacitor(in.(OutputCapacitorInputs)); return err }, nil},
		{ESRZeroInputs{q("10 µF"), q("1 Ω"), q("5 kHz"), q("50 kHz")}, "Capacitance Resistance Lowest Highest", "", func(in any) error { _, err := ESRZero(in.(ESRZeroInputs)); return err }, nil},
		{withCapacitor, "Step Response Capacitance", "ESR", func(in any) error { _, err := LoadStep(in.(LoadStepInputs)); return err }, nil},
		{withAllowed, "Step Response Allowed", "ESR", func(in any) error { _, err := LoadStepCapacitor(in.(LoadStepInputs)); return err }, nil},
		{feedCapacitor, "Step Inductance Capacitance", "ESR", func(in any) error { _, err := InputDip(in.(InputInputs)); return err }, nil},
		{feedAllowed, "Step Inductance Allowed", "ESR", func(in any) error { _, err := InputCapacitor(in.(InputInputs)); return err }, nil},
		{HotPlugInputs{q("24 V"), q("1 µH"), q("10 µF"), q("100 mΩ"), q("40 V")}, "Input Inductance Capacitance Resistance Rating", "", func(in any) error { _, err := HotPlug(in.(HotPlugInputs)); return err }, nil},
		{frequency{q("10 kHz")}, "Frequency", "", func(in any) error { _, err := Rejection(points, in.(frequency).Frequency); return err }, strings.ToLower},
		{loop{q("60 dB"), q("1 kHz"), q("10 kHz")}, "Low Corner Frequency", "", func(in any) error {
			x := in.(loop)
			_, err := RejectionOfLoop(x.Low, x.Corner, x.Frequency)
			return err
		}, strings.ToLower},
		{two{q("50 mV"), q("1 mV")}, "Input Allowed", "", func(in any) error { x := in.(two); _, err := NeededRejection(x.Input, x.Allowed); return err }, strings.ToLower},
		{ripple{q("50 mV")}, "", "Input", func(in any) error { _, err := Ripple(in.(ripple).Input, q("40 dB")); return err }, strings.ToLower},
		{ReverseInputs{q("5 V"), q("1 V"), q("0.7 V"), q("200 mΩ"), q("100 µF"), q("1 A")}, "Output Resistance Capacitance Rated", "Input Forward", func(in any) error { _, err := ReverseCurrent(in.(ReverseInputs)); return err }, nil},
		{SurgeInputs{q("79 V"), q("0.5 Ω"), q("40 ms"), q("36 V"), q("40 V"), q("5 V"), q("1 A")}, "Peak Source Duration Clamp Rating Output", "Load", func(in any) error { _, err := Surge(in.(SurgeInputs)); return err }, nil},
	} {
		if err := test.call(test.in); err != nil {
			t.Errorf("%T: %v", test.in, err)
			continue
		}
		with := func(field string, factor float64) error {
			v := reflect.New(reflect.TypeOf(test.in)).Elem()
			v.Set(reflect.ValueOf(test.in))
			f := v.FieldByName(field)
			f.Set(reflect.ValueOf(f.Interface().(units.Quantity).Mul(units.Number(factor))))
			return test.call(v.Interface())
		}
		refused := func(field string, factor float64, limit string) {
			name := field
			if test.asArgument != nil {
				name = test.asArgument(field)
			}
			err := with(field, factor)
			if err == nil || !strings.Contains(err.Error(), ": "+name+" is ") || !strings.Contains(err.Error(), limit) {
				t.Errorf("%T with %s times %v: %v", test.in, field, factor, err)
			}
		}
		for _, field := range strings.Fields(test.positive) {
			refused(field, 0, "; it must be above 0 ")
			refused(field, -1, "; it must be above 0 ")
		}
		for _, field := range strings.Fields(test.notBelow) {
			refused(field, -1, "; it must not be below 0 ")
			if err := with(field, 0); err != nil {
				t.Errorf("%T without %s: %v", test.in, field, err)
			}
		}
	}
}
