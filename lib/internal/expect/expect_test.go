package expect

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"ohmwright/units"

	"pgregory.net/rapid"
)

var q = units.MustParse

// record is a test that writes down what it is told.
type record []string

func (*record) Helper()                          {}
func (r *record) Errorf(format string, a ...any) { *r = append(*r, fmt.Sprintf(format, a...)) }
func (r *record) Fatalf(format string, a ...any) { r.Errorf(format, a...); panic(r) }

// told runs a test and gives what it is told.
func told(test func(t T)) string {
	var r record
	func() {
		defer func() {
			if p := recover(); p != nil && p != any(&r) {
				panic(p)
			}
		}()
		test(&r)
	}()
	return strings.Join(r, "\n")
}

type result struct {
	Gain  units.Quantity
	Parts []units.Quantity
	Left  units.Quantity // out
}

// What is wrong is told, what is right is not.
func TestEachIsTold(t *testing.T) {
	t.Parallel()
	wide := units.Range(q("1 V"), q("2 V"), q("4 V"))
	double := func(x units.Quantity) (any, error) {
		if x.Dim() != wide.Dim() {
			return nil, errors.New("x must be a voltage")
		}
		return result{Gain: x.Mul(units.Number(2)), Parts: []units.Quantity{q("1 A")}}, nil
	}
	for _, test := range []struct {
		name, want string
		run        func(t T)
	}{
		{"near", "", func(t T) { Near(t, "x", q("1.01 V"), "1 V", 0.011) }},
		{"not near", "x is 1.01 V, want 1 V within 0.009", func(t T) { Near(t, "x", q("1.01 V"), "1 V", 0.009) }},
		{"no number", "x is", func(t T) { Near(t, "x", q("1 V").Mul(units.Number(math.NaN())), "1 V", 1) }},
		{"of another kind", "x is 1 A, want 1 V within 1", func(t T) { Near(t, "x", q("1 A"), "1 V", 1) }},
		{"within", "", func(t T) { Within(t, "T", q("26 °C"), "25 °C", "1.1 K") }},
		{"not within", "T is 26 °C, want 25 °C within 0.9 K", func(t T) { Within(t, "T", q("26 °C"), "25 °C", "0.9 K") }},
		{"must", "no", func(t T) { Must(t, 1, errors.New("no")) }},
		{"message", "got  no error", func(t T) { Message(t, "x", nil, "f: x") }},
		{"right message", "", func(t T) { Message(t, "x", errors.New("f: x"), "f: x") }},
		{"spread", "", func(t T) { Spread(t, "f", wide, double, "Parts") }},
		{"spread of a part", "f: Parts[0] has spread: false", func(t T) { Spread(t, "f", wide, double) }},
		{"spread that is named fixed", "f: Gain has spread: true", func(t T) { Spread(t, "f", wide, double, "Parts", "Gain") }},
		{"a kind that ends in the arithmetic", "f, with 2 A in place of", func(t T) {
			Spread(t, "f", wide, func(x units.Quantity) (any, error) { return x.Add(q("1 V")), nil })
		}},
		{"spread that is lost", "f: Gain is", func(t T) {
			Spread(t, "f", wide, func(x units.Quantity) (any, error) { return result{Gain: units.High(x)}, nil }, "*")
		}},
		{"decided for all", "f decides for all cases", func(t T) {
			Spread(t, "f", wide, func(x units.Quantity) (any, error) {
				if x.Less(q("3 V")) {
					return result{Gain: x}, nil
				}
				return result{Gain: x}, nil
			})
		}},
		{"no spread of all", "f: no result has spread", func(t T) {
			SpreadOfAll(t, "f", []string{"1 V"}, func(x []units.Quantity) (any, error) { return q("1 V"), nil })
		}},
		{"infinite", "f: Parts[0] is +Inf", func(t T) {
			Finite(t, "f", func() (any, error) { return result{Parts: []units.Quantity{units.Number(math.Inf(1))}}, nil })
		}},
		{"refused by arithmetic", "f panics: cannot add", func(t T) {
			Finite(t, "f", func() (any, error) { return q("1 V").Add(q("1 A")), nil })
		}},
	} {
		if got := told(test.run); test.want == "" && got != "" || !strings.Contains(got, test.want) {
			t.Errorf("%s: told %q, want %q", test.name, got, test.want)
		}
	}
}

// A filler reaches each field.
func TestFiller(t *testing.T) {
	t.Parallel()
	type inputs struct {
		Load   units.Quantity
		Inner  result
		Forced bool
		Form   string
	}
	seen := map[string]bool{}
	rapid.Check(t, func(t *rapid.T) {
		draw, _ := Manner(t)
		unit := map[string]string{"Load": "A", "Gain": "", "Parts": "Ω", "result.Left": "V"}
		f := Filler{Units: unit, Draw: draw, Others: []any{[]string{"a", "b"}}}
		f.Call(t, func(in inputs) (inputs, error) {
			for name := range Quantities(in) {
				seen[name] = true
			}
			seen[in.Form], seen[fmt.Sprint(in.Forced)] = true, true
			return inputs{}, nil
		}, nil)
	})
	for _, name := range []string{"Load", "Inner.Gain", "Inner.Parts[0]", "Inner.Left", "a", "b", "true", "false"} {
		if !seen[name] && !testing.Short() { // which draws few
			t.Errorf("nothing was drawn for %s", name)
		}
	}
}
