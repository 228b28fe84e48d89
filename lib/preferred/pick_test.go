package preferred

import (
	"math"
	"slices"
	"strconv"
	"testing"

	"ohmwright/units"

	"pgregory.net/rapid"
)

var allSeries = []Series{E3, E6, E12, E24, E48, E96, E192}

func TestPick(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		got, want units.Quantity
		source    string
	}{
		{Nearest(E96, q("12.08 kΩ")), q("12.1 kΩ"), "TI SLVSDC9B, output voltage resistors"},
		{Nearest(E96, q("15.32 kΩ")), q("15.4 kΩ"), "TI JAJSNN5"},
		{Nearest(E96, q("3.80 kΩ")), q("3.83 kΩ"), "TI SLUS749C p. 36"},
		{Nearest(E96, q("6.40 kΩ")), q("6.34 kΩ"), "TI SLUS749C p. 36"},
		{Nearest(E96, q("500 kΩ")), q("499 kΩ"), "TI JAJSKJ9A"},
		{Nearest(E96, q("1.905 kΩ")), q("1.91 kΩ"), "E96 list: 1.87 and 1.91"},
		{Nearest(E12, q("440 Ω")), q("470 Ω"), "E12 list: 390 and 470"},
		{AtLeast(E24, q("440 Ω")), q("470 Ω"), "E24 list, LED resistor 440 Ω: next above 470 Ω"},
		{AtMost(E24, q("1770.3 Ω")), q("1.6 kΩ"), "E24 list: 1.6 and 1.8"},
		{AtLeast(E6, q("95 µF")), q("100 µF"), "E6 list"},
		{AtLeast(E6, q("101 µF")), q("150 µF"), "E6 list"},
		{AtMost(E6, q("99 µF")), q("68 µF"), "E6 list"},
		{Nearest(E12, q("9 kΩ")), q("8.2 kΩ"), "0.8 against 1.0 away"},
		{Nearest(E12, q("9.2 kΩ")), q("10 kΩ"), "1.0 against 0.8 away: into the next decade"},
		{Nearest(E12, q("2.1 Ah")), q("2.2 Ah"), "round in its own unit: 1.8 and 2.2 Ah"},
		{Nearest(E24, q("1.25")), q("1.2"), "a tie takes the smaller"},
		{Nearest(E3, q("1.5")), q("1.0"), "0.5 away against 0.7, though 2.2/1.5 < 1.5/1"},
	} {
		if !test.got.Same(test.want) {
			t.Errorf("got %v, want %v (%s)", test.got, test.want, test.source)
		}
	}
}

// 30.9 kΩ and 31.6 kΩ are both 350 Ω away from 31.25 kΩ: the smaller is
// taken, whatever the last bit of the float says.
func TestTieTakesTheSmaller(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		series  Series
		x, want string
	}{
		{E96, "31.25 kΩ", "30.9 kΩ"},
		{E24, "1.05 kΩ", "1 kΩ"},
		{E24, "0.125", "0.12"},
		{E24, "9.55 nF", "9.1 nF"},
		{E192, "9.25", "9.20"},
		{E3, "7.35 MΩ", "4.7 MΩ"},
	} {
		if got := Nearest(test.series, q(test.x)); !got.Same(q(test.want)) {
			t.Errorf("Nearest(%v, %s) is %v, want %s", test.series, test.x, got, test.want)
		}
	}
}

// A member is itself however it was computed, and exact afterwards.
func TestMemberWithinRounding(t *testing.T) {
	t.Parallel()
	for _, x := range []units.Quantity{
		q("1.91 kΩ"),
		q("1.91 kΩ").Mul(units.Number(1 + 1e-12)),
		q("1.91 kΩ").Mul(units.Number(1 - 1e-12)),
		q("1.91 V").Div(q("1 mA")),
	} {
		for _, got := range []units.Quantity{Nearest(E96, x), AtLeast(E96, x), AtMost(E96, x)} {
			if got.SI() != 1910 {
				t.Errorf("%s gives %s, want exactly 1910 Ω", x.Text(0), got.Text(0))
			}
		}
		if !IsMember(E96, x) {
			t.Errorf("%s is no member", x.Text(0))
		}
	}
	off := q("1.91 kΩ").Mul(units.Number(1 + 1e-8))
	if got := AtLeast(E96, off); !got.Same(q("1.96 kΩ")) {
		t.Errorf("AtLeast of 1.91 kΩ and 1e-8 more is %v, want 1.96 kΩ", got)
	}
	if IsMember(E96, off) || IsMember(E96, q("4.7 kΩ")) || IsMember(E24, q("0 Ω")) || IsMember(E24, q("25 °C")) || !IsMember(E24, q("4.7 kΩ")) {
		t.Error("IsMember is wrong")
	}
}

// The unit of the result is that of what was asked for, and the number is the
// float64 nearest to the decimal.
func TestUnitAndNumber(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		x, text string
		si      float64
	}{
		{"4.6 µF", "4.7 µF", 4.7e-6},
		{"0.33 pF", "330 fF", 0.33e-12},
		{"9.1 MΩ", "9.1 MΩ", 9.1e6},
		{"2.3 Ah", "2.2 Ah", 7920},
		{"12 %", "12 %", 0.12},
	} {
		got := Nearest(E24, q(test.x))
		if got.SI() != test.si || got.String() != test.text {
			t.Errorf("Nearest(E24, %s) is %v (%v), want %s (%v)", test.x, got, got.SI(), test.text, test.si)
		}
	}
	if got := Nearest(E96, units.Tolerance(q("1.905 kΩ"), q("1 %"))); got.HasSpread() || got.AsBought() != "1.91 kΩ" {
		t.Errorf("of a toleranced value: %v, spread %v", got.AsBought(), got.HasSpread())
	}
}

func TestSteps(t *testing.T) {
	t.Parallel()
	for _, test := range []struct {
		series                Series
		x, previous, nextText string
	}{
		{E12, "4.7 kΩ", "3.9 kΩ", "5.6 kΩ"},
		{E12, "5 kΩ", "4.7 kΩ", "5.6 kΩ"},
		{E12, "1 kΩ", "820 Ω", "1.2 kΩ"},
		{E192, "9.88 Ω", "9.76 Ω", "10 Ω"},
		{E3, "1 µF", "0.47 µF", "2.2 µF"},
	} {
		next, err := Next(test.series, q(test.x))
		if err != nil || !next.Same(q(test.nextText)) {
			t.Errorf("Next(%v, %s) is %v, %v, want %s", test.series, test.x, next, err, test.nextText)
		}
		previous, err := Previous(test.series, q(test.x))
		if err != nil || !previous.Same(q(test.previous)) {
			t.Errorf("Previous(%v, %s) is %v, %v, want %s", test.series, test.x, previous, err, test.previous)
		}
	}
}

func TestMembers(t *testing.T) {
	t.Parallel()
	got, err := Members(E6, q("1 kΩ"), q("10 kΩ"))
	want := []string{"1 kΩ", "1.5 kΩ", "2.2 kΩ", "3.3 kΩ", "4.7 kΩ", "6.8 kΩ", "10 kΩ"} // IEC 60063
	if err != nil || len(got) != len(want) {
		t.Fatal(got, err)
	}
	for i := range want {
		if !got[i].Same(q(want[i])) {
			t.Errorf("member %d is %v, want %s", i, got[i], want[i])
		}
	}
	if none, err := Members(E3, q("5 Ω"), q("6 Ω")); err != nil || len(none) != 0 {
		t.Errorf("E3 from 5 Ω to 6 Ω: %v, %v, want nothing", none, err)
	}
	all, err := Members(E192, q("1 Ω"), q("0.9999 MΩ"))
	if err != nil || len(all) != 6*192 {
		t.Errorf("E192 over six decades has %d members, %v", len(all), err)
	}
}

func TestStock(t *testing.T) {
	t.Parallel()
	drawer, err := Stock(q("10 kΩ"), q("100 Ω"), q("470 Ω"), q("1 kΩ"), q("4.7 kΩ"), q("470 Ω"))
	if err != nil {
		t.Fatal(err)
	}
	for _, test := range []struct {
		got  units.Quantity
		want string
	}{
		{Nearest(drawer, q("4 kΩ")), "4.7 kΩ"},
		{Nearest(drawer, q("1 Ω")), "100 Ω"},
		{Nearest(drawer, q("1 MΩ")), "10 kΩ"},
		{AtLeast(drawer, q("471 Ω")), "1 kΩ"},
		{AtMost(drawer, q("0.469 kΩ")), "100 Ω"},
		{AtMost(drawer, q("470 Ω")), "470 Ω"},
	} {
		if !test.got.Same(q(test.want)) {
			t.Errorf("got %v, want %s", test.got, test.want)
		}
	}
	list, err := Members(drawer, q("400 Ω"), q("5 kΩ"))
	if err != nil || len(list) != 3 {
		t.Errorf("from 400 Ω to 5 kΩ: %v, %v", list, err)
	}
	if got := Nearest(drawer, q("4 kΩ")).String(); got != "4.7 kΩ" {
		t.Errorf("shown as %s", got)
	}
}

// Nearest, AtLeast and AtMost against going through the whole second list.
func TestPickByBruteForce(t *testing.T) {
	t.Parallel()
	lists := map[string][]float64{}
	for _, s := range allSeries {
		lists[s.Name] = listed(t, s.Name, -4, 8)
	}
	unitList := []string{"", "Ω", "kΩ", "µF", "Ah", "mm"}
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(allSeries).Draw(t, "series")
		unit := rapid.SampledFrom(unitList).Draw(t, "unit")
		v := math.Pow(10, rapid.Float64Range(-3, 7).Draw(t, "exponent"))
		list := lists[s.Name]
		if rapid.Bool().Draw(t, "on a member") {
			v = rapid.SampledFrom(list[3:len(list)-3]).Draw(t, "member")
		}
		x := q(strconv.FormatFloat(v, 'f', -1, 64) + " " + unit)
		best, least, most := math.Inf(1), math.Inf(1), 0.0
		for _, m := range list {
			if math.Abs(m-v) < math.Abs(best-v)-1e-9*v {
				best = m
			}
			if m >= v*(1-1e-9) {
				least = math.Min(least, m)
			}
			if m <= v*(1+1e-9) {
				most = math.Max(most, m)
			}
		}
		for _, c := range []struct {
			name string
			got  units.Quantity
			want float64
		}{{"Nearest", Nearest(s, x), best}, {"AtLeast", AtLeast(s, x), least}, {"AtMost", AtMost(s, x), most}} {
			want := q(strconv.FormatFloat(c.want, 'f', -1, 64) + " " + unit)
			if !c.got.Same(want) {
				t.Fatalf("%s(%v, %s) is %s, want %s", c.name, s, x.Text(0), c.got.Text(0), want.Text(0))
			}
		}
	})
}

// A stock against going through its values.
func TestStockByBruteForce(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		numbers := rapid.SliceOfN(rapid.Float64Range(1, 1000), 1, 12).Draw(t, "numbers")
		var values []units.Quantity
		for _, n := range numbers {
			values = append(values, units.Number(n).Mul(q("1 Ω")))
		}
		s, err := Stock(values...)
		if err != nil {
			t.Fatal(err)
		}
		v := rapid.Float64Range(1, 1000).Draw(t, "wanted")
		got := Nearest(s, units.Number(v).Mul(q("1 Ω")))
		slices.Sort(numbers)
		best := math.Inf(1)
		for _, n := range numbers {
			best = math.Min(best, math.Abs(n-v))
		}
		if d := math.Abs(got.SI() - v); d > best+1e-9*v || !slices.Contains(numbers, got.SI()) {
			t.Fatalf("nearest of %v to %v is %v", numbers, v, got.SI())
		}
	})
}
