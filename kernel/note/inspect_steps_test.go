package note

import (
	"fmt"
	"go/types"
	"math"
	"reflect"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/cell/inside"
	"ohmwright/lib/divider"
	"ohmwright/lib/thermal"
	"ohmwright/units"
)

// The formulas that are drawn are the ones that are computed: worked out step
// by step they give what the compiled function gives, in every field that a
// step names.
func TestStepsAreWhatIsComputed(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
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
	for _, c := range []struct {
		path, name string
		in         any // a struct of inputs, or nil
		args       map[string]units.Quantity
		out        any
		steps      int // at least
	}{
		{"ohmwright/lib/divider", "Loaded", loaded, nil, first(divider.Loaded(loaded)), 13},
		{"ohmwright/lib/divider", "Loaded", both, nil, first(divider.Loaded(both)), 13},
		{"ohmwright/lib/divider", "FeedbackOutput", output, nil, first(divider.FeedbackOutput(output)), 5},
		{"ohmwright/lib/divider", "FeedbackUpper", upper, nil, first(divider.FeedbackUpper(upper)), 5},
		{"ohmwright/lib/divider", "FeedbackLower", lower, nil, first(divider.FeedbackLower(lower)), 5},
		{"ohmwright/lib/divider", "DirectSampling", direct, nil, first(divider.DirectSampling(direct)), 3},
		{"ohmwright/lib/divider", "Plain", nil, map[string]units.Quantity{"input": q("12V"), "upper": q("10kΩ"), "lower": q("3.3kΩ")},
			first(divider.Plain(q("12V"), q("10kΩ"), q("3.3kΩ"))), 8},
		{"ohmwright/lib/thermal", "RequiredSink", sink, nil, first(thermal.RequiredSink(sink)), 4},
		{"ohmwright/lib/thermal", "TopAndBoard", board, nil, first(thermal.TopAndBoard(board)), 9},
		{"ohmwright/lib/thermal", "Settled", settled, nil, first(thermal.Settled(settled)), 9},
		{"ohmwright/lib/thermal", "Vias", vias, nil, first(thermal.Vias(vias)), 5},
	} {
		steps, source := lesson(w, c.path, c.name)
		if len(steps) < c.steps || source == "" {
			t.Errorf("%s: %d steps, want %d", c.name, len(steps), c.steps)
		}
		values := map[string]units.Quantity{}
		for name, v := range c.args {
			values[name] = v
		}
		if c.in != nil {
			in := reflect.ValueOf(c.in)
			for i := range in.NumField() {
				switch v := in.Field(i).Interface().(type) {
				case units.Quantity:
					values[in.Type().Field(i).Name] = v
				case int:
					values[in.Type().Field(i).Name] = units.Number(float64(v))
				}
			}
		}
		known := len(values)
		for _, s := range steps {
			if s.When != nil {
				given := !values[s.When.Args[0].Text].Identical(units.Quantity{})
				if given == s.Else {
					continue
				}
			}
			values[s.Name] = evaluate(t, s.Formula, values)
		}
		if len(values) == known {
			t.Errorf("%s: no step gave anything", c.name)
		}
		out := reflect.ValueOf(c.out)
		for i := range out.NumField() {
			name := out.Type().Field(i).Name
			want, ok := out.Field(i).Interface().(units.Quantity)
			if got, stepped := values[name]; ok && (!stepped || got.Dim() != want.Dim() || math.Abs(got.SI()-want.SI()) > 1e-12*math.Abs(want.SI())) {
				t.Errorf("%s: %s comes to %v by the steps, the function gives %v", c.name, name, got, want)
			}
		}
	}
}

// evaluate works out a formula.
func evaluate(t *testing.T, e *cell.Expr, values map[string]units.Quantity) units.Quantity {
	t.Helper()
	args := make([]units.Quantity, len(e.Args))
	for i, a := range e.Args {
		args[i] = evaluate(t, a, values)
	}
	switch {
	case e.Kind == cell.ExprName && e.Text == "math.Pi":
		return units.Number(math.Pi)
	case e.Kind == cell.ExprName:
		v, ok := values[e.Text]
		if !ok {
			t.Errorf("%s is used before it is computed", e.Text)
		}
		return v
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
		case "Ln":
			return units.Ln(args[0])
		}
	}
	t.Errorf("cannot work out %s", fmt.Sprint(e.Kind, e.Text))
	return units.Quantity{}
}

// The source of every package of lib can be read, and gives the text of each
// of its functions.
func TestLessonsOfAllFunctions(t *testing.T) {
	t.Parallel()
	w, err := host.Load()
	if err != nil {
		t.Fatal(err)
	}
	drawn, library := 0, inside.New(w)
	for _, path := range w.Paths() {
		if _, ok := w.Source(path); !ok {
			continue
		}
		k, err := w.Importer().Import(path)
		if err != nil {
			t.Fatal(err)
		}
		for _, name := range k.Scope().Names() {
			if f, ok := k.Scope().Lookup(name).(*types.Func); ok && f.Exported() {
				steps, source := lesson(w, path, name)
				if len(steps) == 0 {
					steps = formulas(library, path, name)
				}
				if source == "" {
					t.Errorf("%s.%s has no source", path, name)
				}
				if len(steps) > 0 {
					drawn++
				}
				for _, s := range steps {
					if s.Name == "" || s.Formula == nil {
						t.Errorf("%s.%s: a step %+v", path, name, s)
					}
				}
			}
		}
	}
	if drawn < 175 {
		t.Errorf("only %d functions have formulas", drawn)
	}
}
