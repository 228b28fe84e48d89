package argument

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ohmwright/units"
)

var q = units.MustParse

// What each check takes and what it refuses; the messages in full are tested
// where they are used.
func TestChecks(t *testing.T) {
	t.Parallel()
	var unset units.Quantity
	inf, nan := units.Number(math.Inf(1)), units.Number(math.NaN())
	zero := q("0 Ω")
	minusZero := zero.Mul(units.Number(-1))
	for _, test := range []struct {
		name  string
		check func(string, units.Quantity) error
		good  []units.Quantity
		bad   []units.Quantity
	}{
		{"Positive", Resistance.Positive,
			[]units.Quantity{q("1 Ω"), q("4.7 kohm"), q("1 V").Div(q("1 A")), q("1e-29 Ω"), q("1e29 Ω"), units.NewStudy(units.StudyOptions{}).Place("r", "r", units.Tolerance(q("10 kΩ"), q("1 %")))},
			[]units.Quantity{unset, zero, minusZero, q("-1 Ω"), q("1 V"), q("1 Ω/sq"), units.Number(5), inf, q("1 Ω").Mul(inf), q("1 Ω").Mul(nan), q("1e-31 Ω"), q("1e31 Ω"), q("25 °C"), q("3 dB")}},
		{"NotNegative", Resistance.NotNegative,
			[]units.Quantity{q("1 Ω"), zero, minusZero},
			[]units.Quantity{unset, q("-1 Ω"), q("1 V"), q("1 Ω").Mul(inf), q("1 Ω").Mul(nan), units.Number(0)}},
		{"Signed", Voltage.Signed,
			[]units.Quantity{q("1 V"), q("-1 V"), q("0 V")},
			[]units.Quantity{unset, q("1 A"), q("0 dBV"), q("1 V").Mul(inf), q("1 V").Mul(inf).Neg(), q("1 V").Mul(nan), q("-1e31 V"), q("-1e-31 V")}},
		{"Optional", Resistance.Optional,
			[]units.Quantity{unset, q("1 Ω")},
			[]units.Quantity{zero, q("-1 Ω"), q("1 V")}},
		{"Temperature", Temperature,
			[]units.Quantity{q("25 °C"), q("-40 °C"), q("-273 °C"), q("77 °F")},
			[]units.Quantity{unset, q("25 K"), q("-273.15 °C"), q("25 °C").Add(q("1 K").Mul(inf)), q("25 °C").Add(q("1 K").Mul(nan)), q("1 V")}},
		{"Size", Size,
			[]units.Quantity{q("1 Ω"), q("0 A"), q("50 %"), units.Number(2), q("3 Ah"), q("1 Ω/sq")},
			[]units.Quantity{q("-1 Ω"), q("25 °C"), q("0 dBm"), q("3 dB"), inf, nan}},
	} {
		for _, x := range test.good {
			if err := test.check("x", x); err != nil {
				t.Errorf("%s refuses %v: %v", test.name, x, err)
			}
		}
		for _, x := range test.bad {
			err := test.check("x", x)
			if err == nil {
				t.Errorf("%s takes %v", test.name, x)
			} else if !strings.HasPrefix(err.Error(), "x is ") {
				t.Errorf("%s of %v: the message does not start with the argument: %v", test.name, x, err)
			}
		}
	}
}

func TestOrZero(t *testing.T) {
	t.Parallel()
	var unset units.Quantity
	if got := Current.OrZero(unset); !got.Same(q("0 A")) {
		t.Errorf("not given gives %v, want 0 A", got)
	}
	if got := Current.OrZero(q("1 mA")); !got.Same(q("1 mA")) {
		t.Errorf("1 mA gives %v", got)
	}
	if Given(unset) || !Given(q("0 A")) {
		t.Error("Given is wrong")
	}
}

func TestFirst(t *testing.T) {
	t.Parallel()
	one, two := errors.New("one"), errors.New("two")
	if err := First("f", nil, one, two); err == nil || err.Error() != "f: one" || !errors.Is(err, one) {
		t.Errorf("got %v, want f: one", err)
	}
	if err := First("f", nil, nil); err != nil {
		t.Errorf("got %v, want none", err)
	}
}

// A message names the kind as English does.
func TestKindsAsMessagesNameThem(t *testing.T) {
	t.Parallel()
	var unset units.Quantity
	for _, test := range []struct {
		err  error
		want string
	}{
		{Resistance.Positive("x", q("1 V")), "x is 1 V; it must be a resistance: write it in Ω, such as 10 kΩ"},
		{Inductance.Positive("x", q("1 V")), "x is 1 V; it must be an inductance: write it in H, such as 10 µH"},
		{BatteryEnergy.Positive("x", q("1 V")), "x is 1 V; it must be an energy: write it in Wh, such as 10 Wh"},
		{Angle.Positive("x", q("1 V")), "x is 1 V; it must be an angle: write it in °, such as 60°"},
		{Capacity.Positive("x", q("1 V")), "x is 1 V; it must be a capacity of a battery: write it in Ah, such as 500 mAh"},
		{Capacity.Positive("x", unset), "x is not given, or is the bare number 0: write its capacity, such as 500 mAh"},
		{Capacity.Positive("x", q("0 Ah")), "x is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh"},
		{VoltageSlope.Positive("x", unset), "x is not given, or is the bare number 0: write its slope, such as 1 V/ms"},
		{Difference.Positive("x", unset), "x is not given, or is the bare number 0: write its difference, such as 40 K"},
		{Gain.Positive("x", unset), "x is not given, or is the bare number 0: write its ratio, such as 60 dB"},
	} {
		if test.err == nil || test.err.Error() != test.want {
			t.Errorf("got  %v\nwant %s", test.err, test.want)
		}
	}
}

// First has the word of the kind, though the comparison beside it was made
// before: it must not end the cell with a refusal of the arithmetic.
func TestFirstNamesTheKindBeforeTheComparison(t *testing.T) {
	t.Parallel()
	share := q("25 °C")
	err := First("f", Share.Positive("Depth", share), AtMost("Depth", share, "all of it", units.Number(1), "lower it"))
	if want := "f: Depth is 25 °C; it must be a share: write it in %, such as 60 %"; err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

func TestLimits(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"above", Above("Output", q("1 V"), "Reference", q("1 V"), "raise it"), "Output is 1 V; it must be above Reference, 1 V: raise it"},
		{"above, another kind", Above("Output", q("1 A"), "Reference", q("1 V"), "raise it"), "Output is 1 A; it must be above Reference, 1 V, which is of another kind: raise it"},
		{"under, a point", Under("Hottest", q("25 °C"), "the limit", q("40 K"), "cool it"), "Hottest is 25 °C; it must be below the limit, 40 K, which is of another kind: cool it"},
		{"at most, another tag", AtMost("Sheet", q("1 Ω/sq"), "Lower", q("2 Ω"), "lower it"), "Sheet is 1 Ω/sq; it must not be above Lower, 2 Ω, which is of another kind: lower it"},
		{"above, held", Above("Output", q("2 V"), "Reference", q("1 V"), "raise it"), ""},
		{"at least", AtLeast("Output", q("0.5 V"), "Reference", q("1 V"), "raise it"), "Output is 500 mV; it must not be below Reference, 1 V: raise it"},
		{"at least, held", AtLeast("Output", q("1 V"), "Reference", q("1 V"), "raise it"), ""},
		{"at most", AtMost("Load", q("2 A"), "Rated", q("1 A"), "lower it"), "Load is 2 A; it must not be above Rated, 1 A: lower it"},
		{"at most, held", AtMost("Load", q("1 A"), "Rated", q("1 A"), "lower it"), ""},
		{"count low", Count("Bits", 0, 1, 32, "write it"), "Bits is 0; it must be from 1 to 32: write it"},
		{"count high", Count("Bits", 33, 1, 32, "write it"), "Bits is 33; it must be from 1 to 32: write it"},
		{"count, held", Count("Bits", 32, 1, 32, "write it"), ""},
		{"unset", Unset("Upper", q("1 Ω"), "leave it out"), "Upper is 1 Ω, but this function finds it: leave it out"},
		{"unset, held", Unset("Upper", units.Quantity{}, "leave it out"), ""},
	} {
		var got string
		if test.err != nil {
			got = test.err.Error()
		}
		if got != test.want {
			t.Errorf("%s:\ngot  %s\nwant %s", test.name, got, test.want)
		}
	}
}

// A check holds in every case, and names the one in which it does not.
func TestChecksOfEveryCase(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{})
	v := study.Place("v", "Voff", units.Tolerance(q("1 V"), q("2 V")))
	hot := study.Place("t", "Ta", units.Range(q("-20 °C"), q("25 °C"), q("60 °C")))
	for _, c := range []struct {
		got  error
		want string
	}{
		{Voltage.Positive("x", v), "x is −1 V where Voff is −1 V; it must be above 0 V: check its sign and the formula it comes from"},
		{Voltage.NotNegative("x", v), "x is −1 V where Voff is −1 V; it must not be below 0 V: check its sign and the formula it comes from"},
		{Voltage.Signed("x", v), ""},
		{Above("x", q("2 V"), "the offset", v, "use more"), "x is 2 V where Voff is 3 V; it must be above the offset, 3 V: use more"},
		{AtLeast("Tj", q("50 °C"), "the air", hot, "look again"), "Tj is 50 °C where Ta is 60 °C; it must not be below the air, 60 °C: look again"},
		{AtLeast("Tj", q("60 °C"), "the air", hot, "look again"), ""},
		{AtMost("x", v, "the limit", q("2 V"), "use less"), "x is 3 V where Voff is 3 V; it must not be above the limit, 2 V: use less"},
		{AtMost("x", v, "the limit", q("3 V"), "use less"), ""},
	} {
		got := ""
		if c.got != nil {
			got = c.got.Error()
		}
		if got != c.want {
			t.Errorf("\n\tsays %s\n\twant %s", got, c.want)
		}
	}
	if splits, n := study.TakeSplits(); n != 0 {
		t.Errorf("a check decides: %v", splits)
	}
}

// A message names the function that was called, not the one that it called.
func TestWithin(t *testing.T) {
	t.Parallel()
	if err := Within("a.Outer", First("b.Inner", nil)); err != nil {
		t.Errorf("of no error: %v", err)
	}
	inner := errors.New("x is 1 V")
	err := Within("a.Outer", First("b.Inner", inner))
	if err == nil || err.Error() != "a.Outer: x is 1 V" || !errors.Is(err, inner) {
		t.Errorf("says %v", err)
	}
}
