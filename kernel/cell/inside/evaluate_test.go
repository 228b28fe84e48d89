package inside_test

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host/allow"
	"ohmwright/kernel/cell/inside"
	"ohmwright/lib/battery"
	"ohmwright/lib/divider"
	"ohmwright/lib/regulator/inverting"
	"ohmwright/lib/regulator/stepdown"
	"ohmwright/lib/regulator/stepup"
	"ohmwright/lib/thermal"
	"ohmwright/units"
)

// The formulas that are drawn are the ones that are computed: worked out step
// by step they give what the compiled function gives, in every field that a
// step names.
func TestFormulasAreWhatIsComputed(t *testing.T) {
	t.Parallel()
	l := inside.New(world(t))
	q := units.MustParse
	first := func(v any, err error) any {
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	loaded := divider.LoadedInputs{Input: q("12V"), Upper: q("10kΩ"), Lower: q("3.3kΩ"), LoadCurrent: q("20µA")}
	both := loaded
	both.LoadResistance = q("10kΩ")
	output := divider.FeedbackInputs{Reference: q("0.8V"), Upper: q("31.6kΩ"), Lower: q("10kΩ"), PinCurrent: q("50nA")}
	upper := divider.FeedbackInputs{Reference: q("0.8V"), Output: q("3.3V"), Lower: q("10kΩ"), PinCurrent: q("-50nA")}
	lower := divider.FeedbackInputs{Reference: q("0.8V"), Output: q("5V"), Upper: q("20kΩ"), PinCurrent: q("50nA")}
	direct := divider.DirectInputs{Source: q("2kΩ"), Switch: q("1kΩ"), Sampling: q("10pF"), Bits: 12}
	sink := thermal.SinkInputs{Limit: q("125°C"), Ambient: q("40°C"), Power: q("5W"), JunctionToCase: q("1.5K/W"), CaseToSink: q("0.5K/W")}
	board := thermal.TopAndBoardInputs{Ambient: q("50°C"), Power: q("1W"), JunctionToCase: q("25K/W"), CaseToAir: q("175K/W"), JunctionToBoard: q("10K/W"), BoardToAir: q("30K/W"), Others: q("0.4W")}
	settled := thermal.SettledInputs{Ambient: q("60°C"), Resistance: q("50K/W"), Loss: q("0.5W"), At: q("25°C"), Tempco: q("0.5%/K"), Fixed: q("0.1W"), Limit: q("125°C")}
	vias := thermal.ViasInputs{Count: 9, Drill: q("0.3mm"), Plating: q("20µm"), Length: q("1.6mm"), Pad: q("9mm²"), Filling: q("0.5W/(m·K)"), CopperConducts: q("380W/(m·K)"), BoardConducts: q("0.4W/(m·K)")}
	stage := stepdown.Stage{Input: q("24V"), Output: q("5V"), Load: q("0.2A"), Frequency: q("500kHz"), Inductance: q("10µH"),
		HighSwitch: q("50mΩ"), LowSwitch: q("30mΩ"), Winding: q("40mΩ")}
	forced := stage
	forced.Forced = true
	up := stepup.Stage{Input: q("3.3V"), Output: q("10V"), Load: q("300mA"), Frequency: q("1.6MHz"), Inductance: q("4.2µH"),
		Switch: q("80mΩ"), Sense: q("20mΩ"), Rectifier: q("50mΩ"), Winding: q("40mΩ")}
	turned := inverting.Stage{Input: q("12V"), Output: q("-5V"), Load: q("1A"), Frequency: q("500kHz"), Inductance: q("15µH"),
		Switch: q("80mΩ"), Rectifier: q("50mΩ"), Winding: q("40mΩ")}
	sepic := turned
	sepic.SEPIC, sepic.Output, sepic.SecondWinding = true, q("5V"), q("60mΩ")
	choke := stepdown.InductanceInputs{Stage: stage, Ratio: q("0.3")}
	choke.Stage.Inductance = units.Quantity{}
	pack := battery.PeukertInputs{Rated: q("100Ah"), Hours: q("20h"), Exponent: q("1.2"), Load: q("10A")}
	for _, c := range []struct {
		path, name string
		in         any // a struct of inputs, or nil
		args       map[string]units.Quantity
		out        any
	}{
		{"divider", "Loaded", loaded, nil, first(divider.Loaded(loaded))},
		{"divider", "Loaded", both, nil, first(divider.Loaded(both))},
		{"divider", "FeedbackOutput", output, nil, first(divider.FeedbackOutput(output))},
		{"divider", "FeedbackUpper", upper, nil, first(divider.FeedbackUpper(upper))},
		{"divider", "FeedbackLower", lower, nil, first(divider.FeedbackLower(lower))},
		{"divider", "DirectSampling", direct, nil, first(divider.DirectSampling(direct))},
		{"divider", "Plain", nil, map[string]units.Quantity{"input": q("12V"), "upper": q("10kΩ"), "lower": q("3.3kΩ")},
			first(divider.Plain(q("12V"), q("10kΩ"), q("3.3kΩ")))},
		{"thermal", "RequiredSink", sink, nil, first(thermal.RequiredSink(sink))},
		{"thermal", "TopAndBoard", board, nil, first(thermal.TopAndBoard(board))},
		{"thermal", "Settled", settled, nil, first(thermal.Settled(settled))},
		{"thermal", "Vias", vias, nil, first(thermal.Vias(vias))},
		{"battery", "Peukert", pack, nil, first(battery.Peukert(pack))},
		{"regulator/stepdown", "Currents", stage, nil, first(stepdown.Currents(stage))},
		{"regulator/stepdown", "Currents", forced, nil, first(stepdown.Currents(forced))},
		{"regulator/stepdown", "Inductance", choke, nil, first(stepdown.Inductance(choke))},
		{"regulator/stepup", "Duty", up, nil, first(stepup.Duty(up))},
		{"regulator/inverting", "Duty", turned, nil, first(inverting.Duty(turned))},
		{"regulator/inverting", "Duty", sepic, nil, first(inverting.Duty(sepic))},
	} {
		v := values{t: t, of: map[string]any{}}
		for name, x := range c.args {
			v.of[name] = x
		}
		if c.in != nil {
			v.add("", reflect.ValueOf(c.in))
		}
		for _, f := range l.Formulas(allow.Lib+c.path, c.name) {
			if f.When == nil || v.holds(f.When) != f.Else {
				v.of[f.Name] = v.evaluate(f.Formula)
			}
		}
		out := reflect.ValueOf(c.out)
		for i := range out.NumField() {
			name := out.Type().Field(i).Name
			want, ok := out.Field(i).Interface().(units.Quantity)
			if got, stepped := v.of[name].(units.Quantity); ok && (!stepped || got.Dim() != want.Dim() || math.Abs(got.SI()-want.SI()) > 1e-12*math.Abs(want.SI())) {
				t.Errorf("%s: %s comes to %v by the formulas, the function gives %v", c.name, name, got, want)
			}
		}
	}
}

// values are what the names in formulas stand for.
type values struct {
	t  *testing.T
	of map[string]any
}

// add takes the fields of inputs, those of a structure in them as Stage.Input.
func (v values) add(before string, in reflect.Value) {
	for i := range in.NumField() {
		name := before + in.Type().Field(i).Name
		switch x := in.Field(i).Interface().(type) {
		case units.Quantity, bool:
			v.of[name] = x
		case int:
			v.of[name] = units.Number(float64(x))
		default:
			v.add(name+".", in.Field(i))
		}
	}
}

// path is the name that a formula uses.
func path(e *cell.Expr) string {
	if e.Kind == cell.ExprField {
		return path(e.Args[0]) + "." + e.Text
	}
	return e.Text
}

func (v values) holds(e *cell.Expr) bool {
	switch {
	case e.Kind == cell.ExprCall && e.Text == "given":
		return !v.evaluate(e.Args[0]).Identical(units.Quantity{})
	case e.Kind == cell.ExprUnary && e.Text == "!":
		return !v.holds(e.Args[0])
	}
	b, ok := v.of[path(e)].(bool)
	if !ok {
		v.t.Errorf("no condition: %s", path(e))
	}
	return b
}

// evaluate works out a formula.
func (v values) evaluate(e *cell.Expr) units.Quantity {
	var args []units.Quantity
	if e.Kind != cell.ExprField {
		for _, a := range e.Args {
			args = append(args, v.evaluate(a))
		}
	}
	switch {
	case e.Kind == cell.ExprName && e.Text == "math.Pi":
		return units.Number(math.Pi)
	case e.Kind == cell.ExprName || e.Kind == cell.ExprField:
		x, ok := v.of[path(e)].(units.Quantity)
		if !ok {
			v.t.Errorf("%s is used before it is computed", path(e))
		}
		return x
	case e.Kind == cell.ExprNumber && e.Text == "0":
		return units.Quantity{} // of the other side's kind
	case e.Kind == cell.ExprNumber || e.Kind == cell.ExprLiteral:
		return units.MustParse(e.Text)
	case e.Kind == cell.ExprUnary && e.Text == "-":
		return units.Number(-1).Mul(args[0])
	case e.Kind == cell.ExprBinary:
		switch e.Text {
		case "+":
			return args[0].Add(args[1])
		case "-":
			return args[0].Sub(args[1])
		case "*":
			return args[0].Mul(args[1])
		case "/":
			return args[0].Div(args[1])
		}
	case e.Kind == cell.ExprCall:
		switch e.Text {
		case "Parallel":
			return units.Parallel(args[0], args[1:]...)
		case "Abs":
			return units.Abs(args[0])
		case "Max":
			return units.Max(args[0], args[1:]...)
		case "Min":
			return units.Min(args[0], args[1:]...)
		case "Sqrt":
			return units.Sqrt(args[0])
		case "Exp":
			return units.Exp(args[0])
		case "Ln":
			return units.Ln(args[0])
		}
	}
	v.t.Errorf("cannot work out %v %s", e.Kind, e.Text)
	return units.Quantity{}
}
