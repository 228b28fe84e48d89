package preferred

import (
	"fmt"
	"testing"

	"ohmwright/units"
)

// What is chosen of a value with spread is what is chosen of its nominal
// value: one part, exact. Nothing is decided for a case.
func TestChoiceIsOfTheNominalValue(t *testing.T) {
	t.Parallel()
	drawer, err := Stock(q("1 kΩ"), q("1.8 kΩ"), q("2.2 kΩ"), q("4.7 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	all := func(x any, err error) string { return fmt.Sprintf("%v %v", x, err) }
	for _, test := range []struct {
		name string
		x    string
		f    func(x units.Quantity) string
	}{
		{"Nearest", "1.905 kΩ", func(x units.Quantity) string { return all(Nearest(E96, x), nil) }},
		{"Nearest of a stock", "1.905 kΩ", func(x units.Quantity) string { return all(Nearest(drawer, x), nil) }},
		{"Next", "1.91 kΩ", func(x units.Quantity) string { return all(Next(E96, x)) }},
		{"Previous", "1.91 kΩ", func(x units.Quantity) string { return all(Previous(E96, x)) }},
		{"IsMember", "1.91 kΩ", func(x units.Quantity) string { return all(IsMember(E96, x), nil) }},
		{"Members from", "1 kΩ", func(x units.Quantity) string { return all(Members(E6, x, q("10 kΩ"))) }},
		{"Members to", "10 kΩ", func(x units.Quantity) string { return all(Members(E6, q("1 kΩ"), x)) }},
		{"Members of one", "1 kΩ", func(x units.Quantity) string { return all(Members(E6, x, q("1 kΩ"))) }},
		{"RatioPair", "3.125", func(x units.Quantity) string { return all(RatioPair(E96, x, q("10 kΩ"), q("1 MΩ"))) }},
		{"RatioPair, least", "10 kΩ", func(x units.Quantity) string { return all(RatioPair(E96, q("3.125"), x, q("1 MΩ"))) }},
		{"RatioPair, most", "1 MΩ", func(x units.Quantity) string { return all(RatioPair(E96, q("3.125"), q("10 kΩ"), x)) }},
		{"SeriesPair", "1.905 kΩ", func(x units.Quantity) string { return all(SeriesPair(E12, x)) }},
		{"ParallelPair", "1.905 kΩ", func(x units.Quantity) string { return all(ParallelPair(E12, x)) }},
		{"Stock", "1.8 kΩ", func(x units.Quantity) string { return all(Stock(q("2.2 kΩ"), x)) }},
		{"FormatRKM", "4.7 kΩ", func(x units.Quantity) string { return all(FormatRKM(x)) }},
		{"FormatNumeric", "4.7 kΩ", func(x units.Quantity) string { return all(FormatNumeric(x, 3)) }},
		{"FormatEIA96", "4.75 kΩ", func(x units.Quantity) string { return all(FormatEIA96(x)) }},
		{"Bands", "4.7 kΩ", func(x units.Quantity) string { return all(Bands(Marking{Value: x, Tolerance: q("1 %")}, 5)) }},
	} {
		study := units.NewStudy(units.StudyOptions{Boards: 20})
		x := study.Place("x", "x", units.Tolerance(q(test.x), q("10 %")))
		if got, want := test.f(x), test.f(q(test.x)); got != want {
			t.Errorf("%s of %s ± 10 %% is %s, of %s alone %s", test.name, test.x, got, test.x, want)
		}
		if splits, n := study.TakeSplits(); n > 0 {
			t.Errorf("%s decides for all cases: %v", test.name, splits)
		}
	}
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	x := study.Place("x", "x", units.Tolerance(q("1.905 kΩ"), q("10 %")))
	pair, err := SeriesPair(E12, x)
	if err != nil {
		t.Fatal(err)
	}
	for _, got := range []units.Quantity{Nearest(E96, x), Nearest(drawer, x), pair.First, pair.Second, pair.Value, pair.Deviation} {
		if got.HasSpread() {
			t.Errorf("the choice %v has spread", got)
		}
	}
}

// 10 kΩ ± 1 % goes from 9.9 kΩ to 10.1 kΩ; the neighbours of 10 in E24 are 9.1
// and 11 (IEC 60063).
func TestLimitWithSpreadSaysWhichEnd(t *testing.T) {
	t.Parallel()
	x := units.NewStudy(units.StudyOptions{}).Place("R", "R", units.Tolerance(q("10 kΩ"), q("1 %")))
	for _, test := range []struct {
		name string
		f    func(Series, units.Quantity) units.Quantity
		want map[string]units.Quantity
	}{
		{"AtLeast", AtLeast, map[string]units.Quantity{"11 kΩ": units.High(x), "10 kΩ": units.Nominal(x)}},
		{"AtMost", AtMost, map[string]units.Quantity{"9.1 kΩ": units.Low(x), "10 kΩ": units.Nominal(x)}},
	} {
		want := "panic: " + test.name + "(E24, x) got x with spread, nominally 10 kΩ: a limit needs one value: say which end counts: " + test.name + "(E24, High(x)), Low(x) or Nominal(x)"
		if got := message(func() error { test.f(E24, x); return nil }); got != want {
			t.Errorf("got  %s\nwant %s", got, want)
		}
		for want, of := range test.want {
			if got := test.f(E24, of); got.String() != want {
				t.Errorf("%s(E24, %v) is %v, want %s", test.name, of, got, want)
			}
		}
	}
}
