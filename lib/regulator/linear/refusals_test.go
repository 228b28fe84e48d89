package linear

import (
	"fmt"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Every message of the package, exactly, and for each check one argument
// that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	var none units.Quantity
	drop := func(rows string) error {
		return e(DropoutAtLoad(expect.Table("load [mA], dropout [V]\n"+rows), q("100 mA")))
	}
	headroom := func(input, output, dropout, ripple units.Quantity) error {
		return e(Headroom(HeadroomInputs{input, output, dropout, ripple}))
	}
	loss := func(input, output, load, ground units.Quantity) error {
		return e(Loss(LossInputs{input, output, load, ground}))
	}
	heat := func(change func(*HeatInputs)) error {
		in := HeatInputs{
			Input: q("5 V"), Output: q("3.3 V"), Load: q("280 mA"), Ground: q("1 mA"),
			Ambient: q("60 °C"), Resistance: q("62 K/W"), Limit: q("125 °C"),
		}
		change(&in)
		return e(Heat(in))
	}
	set := func(change func(*SettingInputs)) error {
		in := SettingInputs{Reference: q("0.8 V"), Upper: q("37.4 kΩ"), Lower: q("12 kΩ"), Wanted: q("3.3 V")}
		change(&in)
		return e(Setting(in))
	}
	capacitor := func(change func(*OutputCapacitorInputs)) error {
		in := OutputCapacitorInputs{Marked: q("10 µF"), ESR: q("5 mΩ"), LeastCapacitance: q("2.2 µF"), MostESR: q("1 Ω")}
		change(&in)
		return e(OutputCapacitor(in))
	}
	zero := func(change func(*ESRZeroInputs)) error {
		in := ESRZeroInputs{Capacitance: q("10 µF"), Resistance: q("1 Ω"), Lowest: q("5 kHz"), Highest: q("50 kHz")}
		change(&in)
		return e(ESRZero(in))
	}
	step := LoadStepInputs{Step: q("200 mA"), Response: q("5 µs"), ESR: q("20 mΩ")}
	stepping := func(change func(*LoadStepInputs)) LoadStepInputs { in := step; change(&in); return in }
	input := InputInputs{Step: q("280 mA"), Inductance: q("1 µH"), ESR: q("10 mΩ")}
	feeding := func(change func(*InputInputs)) InputInputs { in := input; change(&in); return in }
	plug := func(change func(*HotPlugInputs)) error {
		in := HotPlugInputs{Input: q("24 V"), Inductance: q("1 µH"), Capacitance: q("10 µF"), Resistance: q("100 mΩ"), Rating: q("40 V")}
		change(&in)
		return e(HotPlug(in))
	}
	reject := func(f, rows string) error {
		return e(Rejection(expect.Table("frequency [kHz], rejection [dB]\n"+rows), q(f)))
	}
	reverse := func(change func(*ReverseInputs)) error {
		in := ReverseInputs{Output: q("5 V"), Forward: q("0.7 V"), Resistance: q("200 mΩ"), Capacitance: q("100 µF"), Rated: q("1 A")}
		change(&in)
		return e(ReverseCurrent(in))
	}
	surge := func(change func(*SurgeInputs)) error {
		in := SurgeInputs{Peak: q("79 V"), Source: q("0.5 Ω"), Duration: q("40 ms"), Clamp: q("36 V"), Rating: q("40 V"), Output: q("5 V"), Load: q("1 A")}
		change(&in)
		return e(Surge(in))
	}
	study := units.NewStudy(units.StudyOptions{})
	wide := study.Place("v", "Vin", units.Range(q("2.5 V"), q("5 V"), q("5.5 V")))
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"no curve", e(DropoutAtLoad(table.Table{}, q("100 mA"))), "linear.DropoutAtLoad: curve is not given: write a table whose columns are in A and V, such as Table(\"file.csv\") or table.Text(\"…\")"},
		{"beyond the curve", drop("0, 0\n50, 1"), "linear.DropoutAtLoad: the table: load is 100 mA; the column goes from 0 A to 50 mA: add rows there, or say with Held() that the end values hold"},
		{"before the curve", drop("200, 0\n500, 1"), "linear.DropoutAtLoad: the table: load is 100 mA; the column goes from 200 mA to 500 mA: add rows there, or say with Held() that the end values hold"},
		{"negative dropout in the curve", drop("0, 0\n500, -1"), "linear.DropoutAtLoad: the least dropout of curve is −1 V; it must not be below 0 V: check its sign and the formula it comes from"},
		{"curve of currents", e(DropoutAtLoad(expect.Table("load [A], dropout [A]\n0, 0\n1, 1"), q("100 mA"))), "linear.DropoutAtLoad: curve: column 2 of the table (dropout) is in A; it must be in V, or in another unit of that kind"},
		{"curves for a curve", e(DropoutAtLoad(twoCurves(), q("100 mA"))), "linear.DropoutAtLoad: curve: the table has 2 inputs before the output, and one is needed, in A: write the rows of one curve, with rising inputs"},
		{"no load", e(DropoutAtLoad(expect.Table("load [A], dropout [V]\n0, 0\n1, 1"), none)), "linear.DropoutAtLoad: load is not given, or is the bare number 0: write its current, such as 1 mA"},
		{"ground curve of voltages", e(GroundCurrent(expect.Table("load [A], ground [V]\n0, 0\n1, 1"), q("100 mA"))), "linear.GroundCurrent: curve: column 2 of the table (ground) is in V; it must be in A, or in another unit of that kind"},

		{"a curve for curves", e(Dropout(expect.Table("load [A], dropout [V]\n0, 0\n1, 1"), q("1 mA"), q("25 °C"))), "linear.Dropout: curves: the table has one input before the output, and 2 are needed, in A and °C: write the second input into the second column, the same in every row of one curve"},
		{"temperature as a difference", e(Dropout(twoCurves(), q("1 mA"), q("25 K"))), "linear.Dropout: temperature is 25 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},
		{"too cold", e(Dropout(twoCurves(), q("1 mA"), q("-20 °C"))), "linear.Dropout: the table: junction is −20 °C; the column goes from 25 °C to 125 °C: add rows there, or say with Held() that the end values hold"},
		{"too much for one of the curves", e(Dropout(expect.Table("load [A], junction [°C], dropout [V]\n0, 25, 0\n0.5, 25, 0.3\n0, 125, 0\n0.2, 125, 0.2"), q("300 mA"), q("50 °C"))), "linear.Dropout: the table: load is 300 mA; the curve of junction 125 °C goes from 0 A to 200 mA: add rows there, or say with Held() that the end values hold"},
		{"beyond the stated load", e(DropoutOfSwitch(q("450 mV"), q("500 mA"), q("600 mA"))), "linear.DropoutOfSwitch: load is 600 mA; it must not be above at, 500 mA: the data sheet states nothing beyond; choose a larger regulator"},
		{"no stated dropout", e(DropoutOfSwitch(q("0 V"), q("500 mA"), q("100 mA"))), "linear.DropoutOfSwitch: stated is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},

		{"no input", headroom(none, q("3.3 V"), q("0 V"), none), "linear.Headroom: Input is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"negative dropout", headroom(q("5 V"), q("3.3 V"), q("-1 V"), none), "linear.Headroom: Dropout is −1 V; it must not be below 0 V: check its sign and the formula it comes from"},
		{"ripple through zero", headroom(q("5 V"), q("3.3 V"), q("1 V"), q("11 V")), "linear.Headroom: Ripple is 11 V; it must not be above twice Input, 10 V: write it peak to peak, and the average for Input"},

		{"output above input", loss(q("3.3 V"), q("5 V"), q("1 A"), none), "linear.Loss: Output is 5 V; it must not be above Input, 3.3 V: a linear regulator only lowers: raise the input, or give what comes out in dropout (Headroom's Delivered)"},
		{"output above input in a case", loss(wide, q("3.3 V"), q("1 A"), none), "linear.Loss: Output is 3.3 V where Vin is 2.5 V; it must not be above Input, 2.5 V: a linear regulator only lowers: raise the input, or give what comes out in dropout (Headroom's Delivered)"},
		{"no current at all", loss(q("5 V"), q("3.3 V"), q("0 A"), none), "linear.Loss: the sum of Load and Ground is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"negative ground current", loss(q("5 V"), q("3.3 V"), q("1 A"), q("-1 mA")), "linear.Loss: Ground is −1 mA; it must not be below 0 A: check its sign and the formula it comes from"},
		{"load as a power", loss(q("5 V"), q("3.3 V"), q("1 W"), none), "linear.Loss: Load is 1 W; it must be a current: write it in A, such as 1 mA"},

		{"heat at the input", heat(func(in *HeatInputs) { in.Output = q("5 V") }), "linear.Heat: Input is 5 V; it must be above Output, 5 V: a linear regulator only lowers: raise the input, or give what comes out in dropout (Headroom's Delivered)"},
		{"limit below the air", heat(func(in *HeatInputs) { in.Limit = q("50 °C") }), "linear.Heat: Limit is 50 °C; it must be above Ambient, 60 °C: lower the ambient temperature or choose a part with a higher limit"},
		{"ground current alone", heat(func(in *HeatInputs) { in.Ground = q("1 A") }), "linear.Heat: the loss that Ambient allows is 1.048 W; it must be above that of Ground alone, 5 W: no load is left: lower Input or Resistance, or choose a part with less ground current"},
		{"no thermal resistance", heat(func(in *HeatInputs) { in.Resistance = q("0 K/W") }), "linear.Heat: Resistance is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"rating of nothing", heat(func(in *HeatInputs) { in.Rated = q("0 A") }), "linear.Heat: Rated is 0 A; it must be above 0 A: write its current, such as 1 mA"},
		{"air as a difference", heat(func(in *HeatInputs) { in.Ambient = q("60 K") }), "linear.Heat: Ambient is 60 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},

		{"nothing wanted", set(func(in *SettingInputs) { in.Wanted = none }), "linear.Setting: Wanted is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"negative least load", set(func(in *SettingInputs) { in.LeastLoad = q("-1 mA") }), "linear.Setting: LeastLoad is −1 mA; it must not be below 0 A: check its sign and the formula it comes from"},
		{"divider refuses", set(func(in *SettingInputs) { in.Lower = q("0 Ω") }), "linear.Setting: divider.FeedbackOutput: Lower is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},

		{"kept too much", capacitor(func(in *OutputCapacitorInputs) { in.Kept = q("120 %") }), "linear.OutputCapacitor: Kept is 120 %; it must not be above the whole, 100 %: write the share that is left, not the one that is lost"},
		{"nothing kept", capacitor(func(in *OutputCapacitorInputs) { in.Kept = q("0 %") }), "linear.OutputCapacitor: Kept is 0 %; it must be above 0 %: write its share, such as 60 %"},
		{"kept as a capacitance", capacitor(func(in *OutputCapacitorInputs) { in.Kept = q("6 µF") }), "linear.OutputCapacitor: Kept is 6 µF; it must be a share: write it in %, such as 60 %"},
		{"ESR window in reverse", capacitor(func(in *OutputCapacitorInputs) { in.LeastESR = q("2 Ω") }), "linear.OutputCapacitor: MostESR is 1 Ω; it must not be below LeastESR, 2 Ω: take both from the data sheet"},
		{"window in reverse", capacitor(func(in *OutputCapacitorInputs) { in.MostCapacitance = q("1 µF") }), "linear.OutputCapacitor: MostCapacitance is 1 µF; it must not be below LeastCapacitance, 2.2 µF: take both from the data sheet"},
		{"no ESR", capacitor(func(in *OutputCapacitorInputs) { in.ESR = none }), "linear.OutputCapacitor: ESR is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"no window", capacitor(func(in *OutputCapacitorInputs) { in.MostESR = none }), "linear.OutputCapacitor: MostESR is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"zero window in reverse", zero(func(in *ESRZeroInputs) { in.Highest = q("1 kHz") }), "linear.ESRZero: Highest is 1 kHz; it must be above Lowest, 5 kHz: write the two ends of the window in order"},
		{"frequency as a time", zero(func(in *ESRZeroInputs) { in.Lowest = q("1 ms") }), "linear.ESRZero: Lowest is 1 ms; it must be a frequency: write it in Hz, such as 100 kHz"},

		{"step with an allowance", e(LoadStep(stepping(func(in *LoadStepInputs) { in.Allowed = q("1 V") }))), "linear.LoadStep: Allowed is 1 V, but this function finds it: leave it out, or use LoadStepCapacitor to find the capacitor for it"},
		{"step without a capacitor", e(LoadStep(step)), "linear.LoadStep: Capacitance is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
		{"step with a capacitor", e(LoadStepCapacitor(stepping(func(in *LoadStepInputs) { in.Capacitance = q("1 µF") }))), "linear.LoadStepCapacitor: Capacitance is 1 µF, but this function finds it: leave it out, or use LoadStep to see what it does"},
		{"ESR takes all", e(LoadStepCapacitor(stepping(func(in *LoadStepInputs) { in.Allowed = q("4 mV") }))), "linear.LoadStepCapacitor: Allowed is 4 mV; it must be above what the ESR alone takes, 4 mV: lower the ESR or the step"},
		{"input with an allowance", e(InputDip(feeding(func(in *InputInputs) { in.Allowed = q("1 V") }))), "linear.InputDip: Allowed is 1 V, but this function finds it: leave it out, or use InputCapacitor to find the capacitor for it"},
		{"input without inductance", e(InputDip(feeding(func(in *InputInputs) { in.Inductance = q("0 H") }))), "linear.InputDip: Inductance is 0 H; it must be above 0 H: write its inductance, such as 10 µH"},
		{"input with a capacitor", e(InputCapacitor(feeding(func(in *InputInputs) { in.Capacitance = q("1 µF") }))), "linear.InputCapacitor: Capacitance is 1 µF, but this function finds it: leave it out, or use InputDip to see what it does"},
		{"input ESR takes all", e(InputCapacitor(feeding(func(in *InputInputs) { in.Allowed = q("1 mV") }))), "linear.InputCapacitor: Allowed is 1 mV; it must be above what the ESR alone takes, 2.8 mV: lower the ESR or the step"},
		{"plug without resistance", plug(func(in *HotPlugInputs) { in.Resistance = none }), "linear.HotPlug: Resistance is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"plug without rating", plug(func(in *HotPlugInputs) { in.Rating = q("-1 V") }), "linear.HotPlug: Rating is −1 V; it must be above 0 V: check its sign and the formula it comes from"},

		{"no curve of rejection", e(Rejection(table.Table{}, q("1 kHz"))), "linear.Rejection: curve is not given: write a table whose columns are in Hz and dB, such as Table(\"file.csv\") or table.Text(\"…\")"},
		{"minus sign", reject("2 kHz", "1, -55\n100, 20"), "linear.Rejection: the first rejection of curve is −55 dB; it must be above 0 dB: check its sign and the formula it comes from"},
		{"far too much", reject("2 kHz", "1, 60\n100, 300"), "linear.Rejection: the most rejection of curve is 300 dB; it must not be above what can be measured, 200 dB: check the formula it comes from"},
		{"far too little", reject("2 kHz", "1, 60\n100, -70"), "linear.Rejection: the least rejection of curve is −70 dB; it must not be below what a loop can add, −60 dB: write rejection above zero where ripple is made smaller"},
		{"rejection as a share", e(Rejection(expect.Table("frequency [kHz], rejection [%]\n1, 1\n2, 2"), q("1 kHz"))), "linear.Rejection: curve: column 2 of the table (rejection) is in %; it must be in dB, or in another unit of that kind"},
		{"rejection from nothing on", reject("2 kHz", "0, 60\n100, 20"), "linear.Rejection: the table: frequency is 0 Hz, which no logarithmic axis has: take log from the heading, or leave the value out"},
		{"beyond the points", reject("1 MHz", "1, 60\n100, 20"), "linear.Rejection: the table: frequency is 1 MHz; the column goes from 1 kHz to 100 kHz: add rows there, or say with Held() that the end values hold"},
		{"below the points", reject("100 Hz", "1, 60\n100, 20"), "linear.Rejection: the table: frequency is 100 Hz; the column goes from 1 kHz to 100 kHz: add rows there, or say with Held() that the end values hold"},
		{"loop of nothing", e(RejectionOfLoop(q("20 dB"), q("1 kHz"), q("1 MHz"))), "linear.RejectionOfLoop: what is left of low is −40 dB; it must not be below nothing, 0 dB: the loop does nothing at this frequency; filter in front of the regulator"},
		{"loop of too much", e(RejectionOfLoop(q("300 dB"), q("1 kHz"), q("1 MHz"))), "linear.RejectionOfLoop: low is 300 dB; it must not be above what can be measured, 200 dB: check the formula it comes from"},
		{"ripple of too much", e(Ripple(q("1 V"), q("300 dB"))), "linear.Ripple: rejection is 300 dB; it must not be above what can be measured, 200 dB: check the formula it comes from"},
		{"ripple with a minus sign", e(Ripple(q("1 V"), q("-65 dB"))), "linear.Ripple: rejection is −65 dB; it must not be below what a loop can add, −60 dB: write rejection above zero where ripple is made smaller"},
		{"nothing allowed", e(NeededRejection(q("1 V"), q("0 V"))), "linear.NeededRejection: allowed is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},

		{"reverse without resistance", reverse(func(in *ReverseInputs) { in.Resistance = q("0 Ω") }), "linear.ReverseCurrent: Resistance is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"reverse with no forward drop", reverse(func(in *ReverseInputs) { in.Forward = none }), "linear.ReverseCurrent: Forward is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"reversed battery", reverse(func(in *ReverseInputs) { in.Input = q("-12 V") }), "linear.ReverseCurrent: Input is −12 V; it must not be below 0 V: check its sign and the formula it comes from"},
		{"surge without source", surge(func(in *SurgeInputs) { in.Source = none }), "linear.Surge: Source is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"surge without duration", surge(func(in *SurgeInputs) { in.Duration = q("0 s") }), "linear.Surge: Duration is 0 s; it must be above 0 s: write its time, such as 10 µs"},
		{"clamp at zero", surge(func(in *SurgeInputs) { in.Clamp = q("0 V") }), "linear.Surge: Clamp is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw, _ := expect.Manner(t)
		quantity := func(unit string) units.Quantity { return draw(unit, unit) }
		point := func() units.Quantity { return quantity("°C") }
		v := func() units.Quantity { return quantity("V") }
		a := func() units.Quantity { return quantity("A") }
		r := func() units.Quantity { return quantity("Ω") }
		c := func() units.Quantity { return quantity("F") }
		h := func() units.Quantity { return quantity("H") }
		s := func() units.Quantity { return quantity("s") }
		f := func() units.Quantity { return quantity("Hz") }
		db := func() units.Quantity { return quantity("dB") }
		curve := func(x, y func() units.Quantity) table.Table { // none where the values make none
			made, _ := table.Curve([]units.Quantity{x(), x(), x()}, []units.Quantity{y(), y(), y()})
			return made
		}
		for i, call := range []func() (any, error){
			func() (any, error) {
				return box(Dropout(twoCurves().Extended(), a(), point()))
			},
			func() (any, error) { return box(DropoutAtLoad(curve(a, v).Extended(), a())) },
			func() (any, error) { return box(DropoutOfSwitch(v(), a(), a())) },
			func() (any, error) { return box(Headroom(HeadroomInputs{v(), v(), v(), v()})) },
			func() (any, error) { return box(GroundCurrent(curve(a, a), a())) },
			func() (any, error) { return box(Loss(LossInputs{v(), v(), a(), a()})) },
			func() (any, error) {
				return box(Heat(HeatInputs{v(), v(), a(), a(), point(), quantity("K/W"), point(), a()}))
			},
			func() (any, error) { return box(Setting(SettingInputs{v(), r(), r(), a(), v(), a()})) },
			func() (any, error) {
				return box(OutputCapacitor(OutputCapacitorInputs{c(), quantity(""), r(), r(), c(), c(), r(), r()}))
			},
			func() (any, error) { return box(ESRZero(ESRZeroInputs{c(), r(), f(), f()})) },
			func() (any, error) { return box(LoadStep(LoadStepInputs{a(), s(), c(), r(), units.Quantity{}})) },
			func() (any, error) {
				return box(LoadStepCapacitor(LoadStepInputs{a(), s(), units.Quantity{}, r(), v()}))
			},
			func() (any, error) { return box(InputDip(InputInputs{a(), h(), c(), r(), units.Quantity{}})) },
			func() (any, error) { return box(InputCapacitor(InputInputs{a(), h(), units.Quantity{}, r(), v()})) },
			func() (any, error) { return box(HotPlug(HotPlugInputs{v(), h(), c(), r(), v()})) },
			func() (any, error) {
				return box(Rejection(curve(f, db), f()))
			},
			func() (any, error) { return box(RejectionOfLoop(db(), f(), f())) },
			func() (any, error) { return box(Ripple(v(), db())) },
			func() (any, error) { return box(NeededRejection(v(), v())) },
			func() (any, error) { return box(ReverseCurrent(ReverseInputs{v(), v(), v(), r(), c(), a()})) },
			func() (any, error) { return box(Surge(SurgeInputs{v(), r(), s(), v(), v(), v(), a()})) },
		} {
			expect.Finite(t, fmt.Sprint("call ", i), call)
		}
	})
}
