package thermal

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
	chain := func(segments ...Segment) error {
		return e(Chain(ChainInputs{Reference: q("25 °C"), Power: q("1 W"), Segments: segments}))
	}
	sink := SinkInputs{Ambient: q("40 °C"), Limit: q("125 °C"), Power: q("10 W"), JunctionToCase: q("1.5 K/W"), CaseToSink: q("0.5 K/W")}
	require := func(change func(*SinkInputs)) error {
		in := sink
		change(&in)
		return e(RequiredSink(in))
	}
	derating := DeratingInputs{Rated: q("250 mW"), Full: q("70 °C"), Zero: q("155 °C"), Temperature: q("100 °C")}
	derate := func(change func(*DeratingInputs)) error {
		in := derating
		change(&in)
		return e(Derating(in))
	}
	falling := expect.Table("air [°C], current [A]\n25, 2\n85, 1")
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"negative power", e(Rise(q("-1 W"), q("62 K/W"))), "thermal.Rise: power is −1 W; it must not be below 0 W: check its sign and the formula it comes from"},
		{"zero resistance", e(Rise(q("1 W"), q("0 K/W"))), "thermal.Rise: resistance is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"arguments exchanged", e(Rise(q("62 K/W"), q("1 W"))), "thermal.Rise: power is 62 K/W; it must be a power: write it in W, such as 500 mW"},
		{"electrical resistance", e(Rise(q("1 W"), q("62 Ω"))), "thermal.Rise: resistance is 62 Ω; it must be a thermal resistance: write it in K/W, such as 62 K/W"},
		{"power as a level", e(Rise(q("30 dBm"), q("62 K/W"))), "thermal.Rise: power is 30 dBm; it must be a power: write it in W, such as 500 mW"},
		{"power not given", e(Rise(none, q("62 K/W"))), "thermal.Rise: power is not given, or is the bare number 0: write its power, such as 500 mW"},

		{"difference for a point", e(Junction(q("40 K"), q("1 W"), q("62 K/W"))), "thermal.Junction: reference is 40 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},
		{"constant zero for a point", e(Junction(none, q("1 W"), q("62 K/W"))), "thermal.Junction: reference is not given, or is the bare number 0: write a temperature, such as 25 °C"},
		{"absolute zero", e(Junction(q("-273.15 °C"), q("1 W"), q("62 K/W"))), "thermal.Junction: reference is −273.2 °C; it must be above absolute zero, −273.15 °C: check its sign and the formula it comes from"},
		{"no resistance", e(Junction(q("25 °C"), q("1 W"))), "thermal.Junction: no thermal resistance is given: write at least one, such as 62 K/W"},
		{"second resistance", e(Junction(q("25 °C"), q("1 W"), q("62 K/W"), q("-3 K/W"))), "thermal.Junction: resistance 2 is −3 K/W; it must be above 0 K/W: check its sign and the formula it comes from"},
		{"hot beyond measure", e(Junction(q("25 °C").Add(q("1 K").Mul(units.Number(1e31))), q("1 W"), q("62 K/W"))), "thermal.Junction: reference is 1e31 °C; it must be below 1e30 K: check the formula it comes from"},
		{"top as a difference", e(JunctionFromTop(q("40 K"), q("1 W"), q("2 K/W"))), "thermal.JunctionFromTop: top is 40 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},
		{"psi zero", e(JunctionFromTop(q("40 °C"), q("1 W"), q("0 K/W"))), "thermal.JunctionFromTop: psi is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},

		{"empty chain", chain(), "thermal.Chain: Segments is empty; a chain needs at least one: write a segment from the junction to the air"},
		{"gap", chain(Segment{"junction", "case", q("1 K/W")}, Segment{"sink", "air", q("1 K/W")}), "thermal.Chain: segment 2 starts at sink, but segment 1 ends at case: put the segments in order from the hottest point, without gaps"},
		{"no name", chain(Segment{"junction", "", q("1 K/W")}), `thermal.Chain: segment 1 goes from "junction" to ""; both points need a name: write what they are, such as junction and case`},
		{"loop", chain(Segment{"junction", "case", q("1 K/W")}, Segment{"case", "junction", q("1 K/W")}), "thermal.Chain: segment 2 goes back to junction: a chain passes each point once"},
		{"psi in a chain", chain(Segment{"junction", "top", q("1 K/W")}), `thermal.Chain: segment 1 goes from junction to top; a junction-to-top figure (ψJT) is no resistance of a path: use JunctionFromMeasured, or θJC and the point "case"`},
		{"chain with zero", chain(Segment{"junction", "case", q("0 K/W")}), "thermal.Chain: the resistance from junction to case is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"chain without reference", e(Chain(ChainInputs{Power: q("1 W")})), "thermal.Chain: Reference is not given, or is the bare number 0: write a temperature, such as 25 °C"},

		{"limit below ambient", e(LargestPower(q("85 °C"), q("70 °C"), q("40 K/W"))), "thermal.LargestPower: limit is 70 °C; it must be above ambient, 85 °C: lower the ambient temperature or choose a part with a higher limit"},
		{"limit at ambient", e(LargestPower(q("85 °C"), q("85 °C"), q("40 K/W"))), "thermal.LargestPower: limit is 85 °C; it must be above ambient, 85 °C: lower the ambient temperature or choose a part with a higher limit"},
		{"limit as a difference", e(LargestPower(q("85 °C"), q("40 K"), q("40 K/W"))), "thermal.LargestPower: limit is 40 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},
		{"resistance for no power", e(LargestResistance(q("25 °C"), q("125 °C"), q("0 W"))), "thermal.LargestResistance: power is 0 W; it must be above 0 W: write its power, such as 500 mW"},
		{"resistance below ambient", e(LargestResistance(q("125 °C"), q("25 °C"), q("1 W"))), "thermal.LargestResistance: limit is 25 °C; it must be above ambient, 125 °C: lower the ambient temperature or choose a part with a higher limit"},
		{"no ambient is cold enough", e(LargestAmbient(q("125 °C"), q("10 W"), q("62 K/W"))), "thermal.LargestAmbient: limit in kelvin is 398.1 K; it must be above the rise, 620 K: no ambient is cold enough; lower the power or the resistance"},

		{"sink for no power", require(func(in *SinkInputs) { in.Power = q("0 W") }), "thermal.RequiredSink: Power is 0 W; it must be above 0 W: write its power, such as 500 mW"},
		{"sink is not enough", require(func(in *SinkInputs) { in.Power = q("50 W") }), "thermal.RequiredSink: JunctionToCase and CaseToSink are 2 K/W together; they must be below 1.7 K/W, which is allowed from junction to air: lower the power, share it between parts, or choose a part with a lower θJC"},
		{"sink limit", require(func(in *SinkInputs) { in.Limit = q("30 °C") }), "thermal.RequiredSink: Limit is 30 °C; it must be above Ambient, 40 °C: lower the ambient temperature or choose a part with a higher limit"},
		{"sink without case", require(func(in *SinkInputs) { in.JunctionToCase = none }), "thermal.RequiredSink: JunctionToCase is not given, or is the bare number 0: write its thermal resistance, such as 62 K/W"},
		{"negative pad", require(func(in *SinkInputs) { in.CaseToSink = q("-1 K/W") }), "thermal.RequiredSink: CaseToSink is −1 K/W; it must not be below 0 K/W: check its sign and the formula it comes from"},

		{"paths without one", e(ParallelPaths(q("1 W"))), "thermal.ParallelPaths: no thermal resistance is given: write at least one, such as 62 K/W"},
		{"path of zero", e(ParallelPaths(q("1 W"), q("60 K/W"), q("0 K/W"))), "thermal.ParallelPaths: resistance 2 is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"paths of negative power", e(ParallelPaths(q("-1 W"), q("60 K/W"))), "thermal.ParallelPaths: power is −1 W; it must not be below 0 W: check its sign and the formula it comes from"},

		{"rated zero", derate(func(in *DeratingInputs) { in.Rated = q("0 W") }), "thermal.Derating: Rated is 0 W; it must be above 0 W: write its power, such as 500 mW"},
		{"corners exchanged", derate(func(in *DeratingInputs) { in.Full, in.Zero = in.Zero, in.Full }), "thermal.Derating: Zero is 70 °C; it must be above Full, 155 °C: take both corners from the derating curve"},
		{"temperature as a difference", derate(func(in *DeratingInputs) { in.Temperature = q("30 K") }), "thermal.Derating: Temperature is 30 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},
		{"slope zero", e(DeratingBySlope(SlopeDeratingInputs{Rated: q("1 W"), Slope: q("0 W/K"), Full: q("25 °C"), Temperature: q("25 °C")})), "thermal.DeratingBySlope: Slope is 0 W/K; it must be above 0 W/K: write its power per kelvin, such as 5 mW/K"},
		{"slope as a resistance", e(DeratingBySlope(SlopeDeratingInputs{Rated: q("1 W"), Slope: q("62 K/W"), Full: q("25 °C"), Temperature: q("25 °C")})), "thermal.DeratingBySlope: Slope is 62 K/W; it must be a power per kelvin: write it in W/K, such as 5 mW/K"},

		{"no curve", e(DeratingFrom(table.Table{}, q("30 °C"))), "thermal.DeratingFrom: curve is not given: write a table whose columns are in °C and W, such as Table(\"file.csv\") or table.Text(\"…\")"},
		{"two curves", e(DeratingFrom(expect.Table("air [°C], hold [A], trip [A]\n25, 2, 4\n85, 1, 2"), q("30 °C"))), "thermal.DeratingFrom: curve: the table has 2 outputs: say which one with Of(\"hold\")"},
		{"negative corner", e(DeratingFrom(expect.Table("air [°C], current [A]\n25, 2\n85, -1"), q("30 °C"))), "thermal.DeratingFrom: the least current of curve is −1 A; it must not be below 0 A: check its sign and the formula it comes from"},
		{"corner as a difference", e(DeratingFrom(expect.Table("air [K], current [A]\n25, 2\n85, 1"), q("30 °C"))), "thermal.DeratingFrom: curve: column 1 of the table (air) is in K; it must be in °C, or in another unit of that kind"},
		{"corner as a level", e(DeratingFrom(expect.Table("air [°C], power [dBm]\n25, 3\n85, 0"), q("30 °C"))), "thermal.DeratingFrom: the least power of curve is 0 dBm; it must be a plain quantity: a temperature or a level has no share"},
		{"below the curve", e(DeratingFrom(falling, q("24 °C"))), "thermal.DeratingFrom: the table: air is 24 °C; the column goes from 25 °C to 85 °C: add rows there, or say with Held() that the end values hold"},
		{"beyond the curve", e(DeratingFrom(falling, q("86 °C"))), "thermal.DeratingFrom: the table: air is 86 °C; the column goes from 25 °C to 85 °C: add rows there, or say with Held() that the end values hold"},
		{"curve at a difference", e(DeratingFrom(falling, q("30 K"))), "thermal.DeratingFrom: temperature is 30 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		quantity, _ := expect.Manner(t)
		point := func(name string) units.Quantity { return quantity(name, "°C") }
		p := func(name string) units.Quantity { return quantity(name, "W") }
		r := func(name string) units.Quantity { return quantity(name, "K/W") }
		for i, c := range []func() (any, error){
			func() (any, error) { return box(Rise(p("power"), r("resistance"))) },
			func() (any, error) { return box(Junction(point("reference"), p("power"), r("1"), r("2"))) },
			func() (any, error) { return box(JunctionFromTop(point("top"), p("power"), r("psi"))) },
			func() (any, error) {
				return box(Chain(ChainInputs{point("reference"), p("power"), []Segment{{"a", "b", r("ab")}, {"b", "c", r("bc")}}}))
			},
			func() (any, error) { return box(LargestPower(point("ambient"), point("limit"), r("resistance"))) },
			func() (any, error) { return box(LargestResistance(point("ambient"), point("limit"), p("power"))) },
			func() (any, error) { return box(LargestAmbient(point("limit"), p("power"), r("resistance"))) },
			func() (any, error) {
				return box(RequiredSink(SinkInputs{point("ambient"), point("limit"), p("power"), r("case"), r("sink")}))
			},
			func() (any, error) { return box(ParallelPaths(p("power"), r("1"), r("2"))) },
			func() (any, error) {
				return box(Derating(DeratingInputs{p("rated"), point("full"), point("zero"), point("temperature")}))
			},
			func() (any, error) {
				return box(DeratingBySlope(SlopeDeratingInputs{p("rated"), quantity("slope", "W/K"), point("full"), point("temperature")}))
			},
			func() (any, error) {
				curve, _ := table.Curve([]units.Quantity{point("t1"), point("t2"), point("t3")}, []units.Quantity{p("v1"), p("v2"), p("v3")})
				return box(DeratingFrom(curve.Extended(), point("temperature")))
			},
		} {
			expect.Finite(t, fmt.Sprint("call ", i), c)
		}
	})
}

func box[T any](x T, err error) (any, error) { return x, err }
