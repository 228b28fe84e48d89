package linear

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// twoCurves are those of the doc comment: 0.6 mV/mA cold, 0.9 mV/mA hot.
func twoCurves() table.Table {
	return expect.Table("load [A], junction [°C], dropout [V]\n0, 25, 0\n0.5, 25, 0.3\n0, 125, 0\n0.5, 125, 0.45")
}

// By hand: at 250 mA 150 mV at 25 °C and 225 mV at 125 °C; half way 187.5 mV;
// a fifth of the way, at 45 °C, 165 mV.
func TestDropout(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ load, temperature, want string }{
		{"250 mA", "25 °C", "150 mV"},
		{"250 mA", "75 °C", "187.5 mV"},
		{"250 mA", "45 °C", "165 mV"},
		{"250 mA", "125 °C", "225 mV"},
		{"500 mA", "125 °C", "450 mV"},
		{"0 A", "60 °C", "0 V"},
	} {
		got := expect.Result[units.Quantity](t)(Dropout(twoCurves(), q(test.load), q(test.temperature)))
		expect.Within(t, fmt.Sprint("dropout at ", test), got, test.want, "1e-12 V")
	}
}

// A curve with a corner, by hand: from 90 mV at 100 mA to 450 mV at 500 mA it
// rises by 0.9 mV/mA: 270 mV at 300 mA; below, 0.9 mV/mA from nothing. At the
// corner itself both pieces give the same.
func TestDropoutAtLoad(t *testing.T) {
	t.Parallel()
	curve := expect.Table("load [mA], dropout [mV]\n0, 50\n100, 90\n500, 450")
	for load, want := range map[string]string{"0 A": "50 mV", "50 mA": "70 mV", "100 mA": "90 mV", "300 mA": "270 mV", "500 mA": "450 mV"} {
		expect.Within(t, "dropout at "+load, expect.Result[units.Quantity](t)(DropoutAtLoad(curve, q(load))), want, "1e-12 V")
	}
}

// By hand: 450 mV/500 mA is 0.9 Ω: 252 mV at 280 mA. A switch is a curve of
// two points from nothing.
func TestDropoutOfSwitch(t *testing.T) {
	t.Parallel()
	expect.Within(t, "at 280 mA", expect.Result[units.Quantity](t)(DropoutOfSwitch(q("450 mV"), q("500 mA"), q("280 mA"))), "252 mV", "1e-12 V")
	expect.Within(t, "at full load", expect.Result[units.Quantity](t)(DropoutOfSwitch(q("450 mV"), q("500 mA"), q("500 mA"))), "450 mV", "1e-12 V")
	expect.Within(t, "without load", expect.Result[units.Quantity](t)(DropoutOfSwitch(q("450 mV"), q("500 mA"), q("0 A"))), "0 V", "0 V")
	rapid.Check(t, func(t *rapid.T) {
		stated, at := of(rapid.Float64Range(0.01, 3).Draw(t, "stated"), "V"), of(rapid.Float64Range(0.01, 5).Draw(t, "at"), "A")
		load := units.Number(rapid.Float64Range(0, 1).Draw(t, "share")).Mul(at)
		a, err := DropoutOfSwitch(stated, at, load)
		if err != nil {
			t.Skip(err) // a load below 1e-30 A
		}
		curve, err := table.Curve([]units.Quantity{q("0 A"), at}, []units.Quantity{q("0 V"), stated})
		if err != nil {
			t.Fatal(err)
		}
		b, err := DropoutAtLoad(curve, load)
		if err != nil || math.Abs(a.SI()-b.SI()) > 1e-12 {
			t.Fatalf("switch %v, curve %v, %v", a, b, err)
		}
	})
}

// The sum of worst cases is common practice: 3.3 V
// + 2 %, 200 mV of dropout and 50 mV of half a ripple of 100 mV: 3.616 V.
func TestHeadroom(t *testing.T) {
	t.Parallel()
	h := expect.Result[HeadroomResult](t)(Headroom(HeadroomInputs{Input: q("5 V"), Output: q("3.366 V"), Dropout: q("200 mV"), Ripple: q("100 mV")}))
	expect.Within(t, "LeastInput", h.LeastInput, "3.616 V", "1e-12 V")
	expect.Within(t, "Valley", h.Valley, "4.95 V", "1e-12 V")
	expect.Within(t, "Headroom", h.Headroom, "1.384 V", "1e-12 V") // 5 − 3.616
	expect.Within(t, "Delivered", h.Delivered, "3.366 V", "0 V")
	expect.Within(t, "Lost", h.Lost, "0 V", "0 V")
}

// The regimes by hand: in dropout the output is the input less the dropout,
// and never below ground. At LeastInput both sides give the output.
func TestHeadroomRegimes(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ input, headroom, delivered, lost string }{
		{"5 V", "1.25 V", "3.3 V", "0 V"},
		{"3.75 V", "0 V", "3.3 V", "0 V"},
		{"3.6 V", "-150 mV", "3.15 V", "150 mV"},
		{"0.5 V", "-3.25 V", "50 mV", "3.25 V"},
		{"0.3 V", "-3.45 V", "0 V", "3.3 V"},
	} {
		h := expect.Result[HeadroomResult](t)(Headroom(HeadroomInputs{Input: q(test.input), Output: q("3.3 V"), Dropout: q("450 mV")}))
		expect.Within(t, "Headroom at "+test.input, h.Headroom, test.headroom, "1e-12 V")
		expect.Within(t, "Delivered at "+test.input, h.Delivered, test.delivered, "1e-12 V")
		expect.Within(t, "Lost at "+test.input, h.Lost, test.lost, "1e-12 V")
	}
}

// Just above and just below LeastInput the output is the same; more input
// never gives less output; less dropout never gives less.
func TestHeadroomIsContinuousAndMonotone(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		in := HeadroomInputs{
			Output:  of(rapid.Float64Range(0.5, 24).Draw(t, "output"), "V"),
			Dropout: of(rapid.Float64Range(0.001, 3).Draw(t, "dropout"), "V"),
			Ripple:  of(rapid.Float64Range(0, 1).Draw(t, "ripple"), "V"),
			Input:   of(rapid.Float64Range(1, 40).Draw(t, "input"), "V"),
		}
		if in.Ripple.SI() < 1e-29 {
			in.Ripple = q("0 V")
		}
		at := func(input units.Quantity) HeadroomResult {
			changed := in
			changed.Input = input
			h, err := Headroom(changed)
			if err != nil {
				t.Fatal(err)
			}
			return h
		}
		first := at(in.Input)
		nudge := first.LeastInput.Mul(units.Number(1e-9))
		below, above := at(first.LeastInput.Sub(nudge)), at(first.LeastInput.Add(nudge))
		if d := above.Delivered.SI() - below.Delivered.SI(); d < 0 || d > 3*nudge.SI() {
			t.Fatalf("at the boundary the output jumps by %v V", d)
		}
		if more := at(in.Input.Add(q("10 mV"))); more.Delivered.SI() < first.Delivered.SI() {
			t.Fatalf("more input gives %v after %v", more.Delivered, first.Delivered)
		}
		if first.Delivered.SI() < 0 || first.Delivered.SI() > in.Output.SI() {
			t.Fatalf("%v comes out of a regulator of %v", first.Delivered, in.Output)
		}
	})
}

func ExampleHeadroom() {
	h, err := Headroom(HeadroomInputs{Input: units.MustParse("3.6 V"), Output: units.MustParse("3.3 V"), Dropout: units.MustParse("450 mV")})
	fmt.Println(h.Headroom, h.Delivered, h.LeastInput, err)
	// Output: −150 mV 3.15 V 3.75 V <nil>
}

func ExampleDropout() {
	v, err := Dropout(twoCurves(), units.MustParse("250 mA"), units.MustParse("75 °C"))
	fmt.Println(v, err)
	// Output: 187.5 mV <nil>
}
