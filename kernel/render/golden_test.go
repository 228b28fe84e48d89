package render

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

var update = flag.Bool("update", false, "write the golden files from what is drawn; read them before committing")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s differs from what is drawn (-file +drawn):\n%s", path, diff)
	}
}

func q(s string) units.Quantity { return units.MustParse(s) }

func limit(s string) *units.Quantity { x := q(s); return &x }

// regulator is the example of a linear regulator with a feedback divider; its
// figures were worked out with a pocket calculator: 10 · 0.8/4.2 = 1.905,
// 0.8 · (1 + 10/1.91) = 4.988, (24 − 4.988) · 15 = 285.2, 25 + 0.2852 · 62 = 42.68.
// So were the limits: 0.788 · (1 + 9.9/1.9291) = 4.832, 0.812 · (1 + 10.1/1.8909)
// = 5.149, (18 − 5.149) · 2 = 25.70, (32 − 4.832) · 25 = 679.2,
// −20 + 0.0257 · 62 = −18.41, 50 + 0.6792 · 62 = 92.11.
func regulator(t testing.TB) []note.Item {
	vals := values{"Vin": "24V", "Vref": "800mV", "Iout": "15mA", "Ta": "25°C", "θJA": "62°C/W", "Rtop": "10kΩ", "Rbot": "1.91kΩ",
		"Vout": "4.988V", "Pd": "285.2mW", "Tj": "42.68°C"}
	input := func(name, value, low, high, about, source string) *note.Entry {
		e := &note.Entry{Name: name, Value: *quantityView(q(value)), Form: note.FormInput, Description: about, Source: source}
		if low != "" {
			e.Spread = spread(low, high)
		}
		return e
	}
	computed := func(name, src, low, high, about string) *note.Entry {
		return &note.Entry{Name: name, Value: *quantityView(q(vals[name])), Form: note.FormComputed, Formula: tree(t, src, vals),
			Description: about, Spread: spread(low, high)}
	}
	rtop := input("Rtop", "10kΩ", "9.9kΩ", "10.1kΩ", "upper feedback resistor", "assumed")
	rtop.Reason = "10 kΩ keeps the divider current ten times above the pin current."
	rbot := computed("Rbot", "Nearest(E96, Rtop*Vref/(5V-Vref)) ± 1%", "1.8909kΩ", "1.9291kΩ", "lower feedback resistor")
	rbot.Form = note.FormChosen
	rbot.Choice = &note.Choice{Rule: "nearest", Series: "E96", Ideal: q("1904.761904761905Ω"), Chosen: q("1.91kΩ"),
		Deviation: 1910/1904.761904761905 - 1, Of: tree(t, "Rtop*Vref/(5V-Vref)", vals)}
	margin := q("125°C").Sub(q("42.68°C"))
	short := q("4.988V").Sub(q("5V"))
	return []note.Item{
		input("Vin", "24V", "18V", "32V", "supply at the connector", "system spec 4.2"),
		input("Vref", "800mV", "788mV", "812mV", "regulator reference", "datasheet table 6.5"),
		input("Iout", "15mA", "2mA", "25mA", "load", "power budget"),
		input("Ta", "25°C", "-20°C", "50°C", "air at the part", "system spec 3.1"),
		input("θJA", "62°C/W", "", "", "junction to air, standard test board", "datasheet table 6.4"),
		rtop, rbot,
		computed("Vout", "Vref*(1+Rtop/Rbot)", "4.83195V", "5.14919V", "output voltage"),
		computed("Pd", "(Vin-Vout)*Iout", "25.7016mW", "679.201mW", "loss in the regulator"),
		computed("Tj", "Ta+Pd*θJA", "-18.4065°C", "92.1105°C", "junction temperature"),
		&note.Requirement{Text: "the junction stays below its rating", Condition: tree(t, "Tj <= 125°C", vals), Holds: true, Nominal: true, Margin: &margin,
			Worst: limit("32.8895K"), WorstCase: "Ta is 50 °C, Iout is 25 mA, Vin is 32 V, Vref is 788 mV, Rtop is 9.9 kΩ, Rbot is 1.929 kΩ",
			Yield:  &note.Yield{Passed: 2000, Boards: 2000, Low: 0.99815724, High: 1, Assumed: "uniform", Where: "Ta is 50 °C, Iout is 25 mA, Vin is 32 V"},
			Inputs: note.Inputs{Spread: 5, Exact: 1}},
		&note.Requirement{Text: "the output reaches 5 V", Condition: tree(t, "Vout >= 5V", vals), Margin: &short,
			Worst: limit("-168.05mV"), WorstCase: "Vref is 788 mV, Rtop is 9.9 kΩ, Rbot is 1.929 kΩ",
			Yield:  &note.Yield{Passed: 840, Boards: 2000, Low: 0.39825, High: 0.44201, Assumed: "normal, limits at 3 σ; uniform"},
			Inputs: note.Inputs{Spread: 2, Typical: 1}},
	}
}

// mixed has one of everything else, with text that means something to HTML,
// TeX and Markdown.
func mixed(t testing.TB) []note.Item {
	vals := circuit
	chosen := func(name, rule, series, ideal, part string, dev float64, src string, kept bool) *note.Entry {
		return &note.Entry{Name: name, Value: *quantityView(q(part)), Form: note.FormChosen, Formula: tree(t, src, vals),
			Choice: &note.Choice{Rule: rule, Series: series, Ideal: q(ideal), Chosen: q(part), Deviation: dev, Kept: kept,
				Of: tree(t, src, vals).Args[1]}}
	}
	record := cell.View{Kind: exec.KindRecord, Type: "divider.Result", Items: []exec.Item{
		{Name: "Vout", Value: *quantityView(q("3.2V"))},
		{Name: "Loaded", Value: cell.View{Kind: exec.KindBool, Text: "true"}},
		{Name: "Steps", Value: cell.View{Kind: exec.KindList, Type: "[]Step", Items: []exec.Item{
			{Name: "[0]", Value: cell.View{Kind: exec.KindRecord, Type: "Step", Items: []exec.Item{{Name: "R", Value: *quantityView(q("1kΩ"))}}}},
		}, More: 7}},
	}}
	list := cell.View{Kind: exec.KindList, Type: "[]Quantity"}
	for _, s := range []string{"820Ω", "1kΩ", "4.7kΩ"} {
		list.Items = append(list.Items, exec.Item{Value: *quantityView(q(s))})
	}
	long := cell.View{Kind: exec.KindList, Type: "[]int", More: 975}
	for i := range 25 {
		long.Items = append(long.Items, exec.Item{Value: *numberView(float64(i * i))})
	}
	return []note.Item{
		&note.Entry{Name: "C_out", Value: *quantityView(q("4700µF")), Form: note.FormInput, Description: `costs $5 & <more> than C_1*, \(x\)`, Source: "quote of $12"},
		chosen("R_s", "at least", "E24", "1234Ω", "1.3kΩ", 1300.0/1234-1, "AtLeast(E24, Sqrt(Ra*Rb))", false),
		chosen("R1", "at most", "E12", "10kΩ", "10kΩ", 0, "AtMost(E12, Rtop)", true),
		&note.Entry{Name: "label", Value: cell.View{Kind: exec.KindText, Text: "first line\nsecond <b>line</b>"}, Form: note.FormInput},
		&note.Entry{Name: "count", Value: *numberView(1234567), Form: note.FormInput},
		&note.Entry{Name: "res", Value: record, Form: note.FormComputed, Formula: tree(t, "divider.Loaded(Vin, Rtop, Rbot)", vals), Description: "the divider under load"},
		&note.Entry{Name: "m", Value: *quantityView(q("3V")), Form: note.FormComputed,
			Formula: tree(t, "divider.Measuring(Inputs{Vin: Vin, Upper: Rtop, Lower: Rbot, Text: "+`"$a"`+"})", vals)},
		&note.Entry{Name: "stock", Value: list, Form: note.FormMade},
		&note.Entry{Name: "squares", Value: long, Form: note.FormMade},
		&note.Entry{Name: "prices", Value: cell.View{Kind: exec.KindMap, Type: "map[string]float64", Items: []exec.Item{
			{Name: "large_one", Value: *numberView(1.5)}, {Name: "x", Value: *numberView(-0.25)}}}, Form: note.FormMade},
		&note.Entry{Name: "half", Value: cell.View{Kind: exec.KindOther, Type: "func(Quantity) Quantity", Text: "func"}, Form: note.FormMade},
		&note.Entry{Name: "hidden", Value: *numberView(1), Quiet: true},
		&note.Entry{Name: "電圧", Value: *quantityView(q("5V")), Form: note.FormInput, Description: "wide name", Reason: "because it is wide"},
		&note.Shown{Value: *quantityView(q("19V")), Formula: tree(t, "Vin-Vout", vals)},
		&note.Shown{Value: *quantityView(q("24V")), Formula: tree(t, "Vin", vals)},
		&note.Printed{Text: "printed <i>text</i> with $x$\nand a second line\n"},
		&note.Notice{Text: "10kΩ/W is read as a unit, though W is a name", Line: 3},
		&note.Requirement{Text: "no text <here>", Condition: tree(t, "Within(Vout, 4.9V, 5.1V)", vals), Holds: true},
	}
}

// plots has figures, and names of some.
func plots(t testing.TB) []note.Item {
	f := sampleFigures()
	return []note.Item{
		&note.Entry{Name: "g", Value: cell.View{Kind: exec.KindOther, Text: "figure, Tj over Iout, 61 points"}, Form: note.FormMade, Description: "over the load"},
		&note.Plotted{Figure: f["temperature"], Formula: tree(t, "Trend(Tj, Iout, 150mA, 1.5A)", values{})},
		&note.Plotted{Figure: f["measured"], Formula: &cell.Expr{Kind: cell.ExprName, Text: "g"}},
		&note.Plotted{Figure: f["impedance"]},
		&note.Plotted{Figure: plot.Figure{Series: []plot.Series{{X: numbersOf("V", 1, 2), Y: numbersOf("A", 3, 3)}}, Marks: []plot.Mark{{Name: "<most>", Value: q("4A")}}}},
	}
}

func spread(low, high string) *note.Spread { return &note.Spread{Low: q(low), High: q(high)} }

// spreads has what Spread(x) shows, and limits that were searched. Figures of
// Vout by pocket calculator: each part alone moves it by 74.83 mV, 41.88 mV
// and 41.47 mV downwards, whose root of the sum of squares is 95.3 mV; the
// deviation of uniform parts is that over √3; Vref has 74.83²/95.3² = 62 % of
// the variance.
func spreads(t testing.TB) []note.Item {
	vout := spread("4.83195V", "5.14919V")
	vout.LowCase, vout.HighCase = "Vref is 788 mV, Rtop is 9.9 kΩ, Rbot is 1.929 kΩ", "Vref is 812 mV, Rbot is 1.891 kΩ, Rtop is 10.1 kΩ"
	vout.Std = limit("55.0mV")
	parts := []note.Share{{Name: "Vref", Kind: units.PartSource, Extreme: 0.47, Variance: 0.62}, {Name: "Rtop", Extreme: 0.265, Variance: 0.193}, {Name: "Rbot", Extreme: 0.265, Variance: 0.187}}
	full := &note.Spreading{Formula: &cell.Expr{Kind: cell.ExprName, Text: "Vout"}, Value: q("4.98848V"), Spread: vout, RSSLow: limit("4.8932V"), RSSHigh: limit("5.0841V"),
		Percentiles: []note.Percentile{{P: 0.5, Value: q("4.868V")}, {P: 5, Value: q("4.9V")}, {P: 50, Value: q("4.989V")}, {P: 95, Value: q("5.08V")}, {P: 99.5, Value: q("5.12V")}},
		Shares:      parts, Boards: 2000, Assumed: "uniform", Bins: bell(4.832, 5.149)}
	// A current of twelve parts and a range, by the same token invented.
	many := spread("361.8µA", "407.9µA")
	many.LowCase, many.HighCase, many.Search, many.Std = "Vs is 4.75 V, R10 is 1.01 kΩ, 10 more", "Vs is 5.25 V, R10 is 990 Ω, 10 more", note.Sampled, limit("747.6nA")
	many.Trouble = "the cell took longer than 10 s"
	shares := []note.Share{{Name: "Vs", Kind: units.RangeSource, Extreme: 0.83}, {Name: "R10", Extreme: 0.05, Variance: 0.45}, {Name: "R10's drift", Kind: units.DriftSource, Extreme: 0.03}}
	for _, name := range []string{"R (Tempco(50 ppm/K, $T$))", "R2", "R3", "R4", "R5", "R6", "R7", "R8", "R9"} {
		shares = append(shares, note.Share{Name: name, Extreme: 0.01, Variance: 0.06})
		many.Sources = append(many.Sources, name)
	}
	mixed := &note.Spreading{Formula: tree(t, "Vs/Rsum", values{}), Value: q("384.6µA"), Spread: many, RSSLow: limit("364.2µA"), RSSHigh: limit("405.2µA"),
		Percentiles: []note.Percentile{{P: 1, Value: q("383µA")}, {P: 50, Value: q("384.6µA")}}, Shares: shares, Boards: 2000, Assumed: "normal, limits at 3 σ; uniform"}
	// 2 A · √(D · (1 − D)) is largest at half duty: 1 A at 24 V.
	peak := spread("942.809mA", "1A")
	peak.LowCase, peak.HighCase, peak.Search = "Vin is 18 V", "Vin is 24 V", note.Inside
	vals := values{"D": "0.461538"}
	return []note.Item{
		full, mixed,
		&note.Spreading{Formula: &cell.Expr{Kind: cell.ExprName, Text: "Vin"}, Value: q("24V"), Shares: []note.Share{{Name: "Vin", Kind: units.RangeSource, Extreme: 1}},
			Spread: &note.Spread{Low: q("18V"), High: q("32V"), LowCase: "Vin is 18 V", HighCase: "Vin is 32 V"}},
		&note.Spreading{Formula: &cell.Expr{Kind: cell.ExprLiteral, Text: "3V", Value: quantityView(q("3V"))}, Value: q("3V")},
		&note.Entry{Name: "Icin", Value: *quantityView(q("997.037mA")), Form: note.FormComputed, Formula: tree(t, "2A*Sqrt(D*(1-D))", vals), Spread: peak, Description: "input capacitor current"},
		&note.Shown{Value: *quantityView(q("9.977V")), Formula: tree(t, "Vout*2", values{"Vout": "4.988V"}), Spread: spread("9.6639V", "10.29838V")},
		&note.Entry{Name: "set", Form: note.FormMade, Description: "a record with limits", Value: cell.View{Kind: exec.KindRecord, Type: "Pair", Items: []exec.Item{
			{Name: "V", Value: *quantityView(units.Range(q("18V"), q("24V"), q("32V")))}, {Name: "exact", Value: *quantityView(q("4.7kΩ"))},
			{Name: "R", Value: cell.View{Kind: exec.KindList, Type: "[]Quantity", Items: []exec.Item{{Name: "[0]", Value: *quantityView(units.Tolerance(q("10kΩ"), q("1%")))}}}}}}},
		&note.Requirement{Text: "never both", Condition: tree(t, "a != b", values{}), FailsWhere: "both sides are equal, somewhere between a is 1 V and a is 2 V", Inputs: note.Inputs{Exact: 2}},
	}
}

// bell counts 2000 boards between two voltages, more of them in the middle.
func bell(low, high float64) []note.Bin {
	bins := make([]note.Bin, 20)
	volts := func(x float64) units.Quantity { return q("1V").Mul(units.Number(x)) }
	for i := range bins {
		bins[i] = note.Bin{From: volts(low + (high-low)*float64(i)/20), To: volts(low + (high-low)*float64(i+1)/20), Boards: min(10*(i+1), 10*(20-i)) * 2000 / 1100}
	}
	return bins
}

func TestGolden(t *testing.T) {
	t.Parallel()
	for name, items := range map[string][]note.Item{"regulator": regulator(t), "mixed": mixed(t), "spread": spreads(t), "figure": plots(t), "board": board(t),
		"derivation": {&note.Derivation{Of: "Tj", Why: why(t)}, &note.Derivation{Of: "d.Output", Why: withSteps(t)}}} {
		golden(t, name+".txt", Text(items, Options{}))
		golden(t, name+"-60.txt", Text(items, Options{Width: 60}))
		golden(t, name+".html", HTML(items, MathML))
		golden(t, name+"-tex.html", HTML(items, TeX))
		golden(t, name+".tex", LaTeX(items))
		golden(t, name+".md", Markdown(items))
	}
}

func TestGoldenTable(t *testing.T) {
	t.Parallel()
	reg, mix := regulator(t), mixed(t)
	golden(t, "table.txt", Table(Options{}, &note.Result{Label: "cell 1", Items: reg[:7]}, &note.Result{Label: "cell 2", Items: reg[7:]},
		&note.Result{Label: "cell 4", Items: mix}))
	if got := Table(Options{}); got != "" {
		t.Errorf("the table of nothing is %q", got)
	}
}

func TestGoldenWhy(t *testing.T) {
	t.Parallel()
	golden(t, "why.txt", WhyText(why(t), 0))
	golden(t, "why-60.txt", WhyText(why(t), 60))
}

// withSteps is the derivation of a field, cut short, with the steps of a lib
// function and one that has none.
func withSteps(t *testing.T) *note.Why {
	t.Helper()
	v := values{"input": "12V", "Ratio": "0.248120300752", "lower": "3.3kΩ", "total": "13.3kΩ"}
	step := func(name, formula string, value units.Quantity) *note.Entry {
		return &note.Entry{Name: name, Value: *quantityView(value), Formula: tree(t, formula, v), Form: note.FormComputed}
	}
	record := cell.View{Kind: exec.KindRecord, Type: "divider.PlainResult", Items: []exec.Item{{Name: "Output", Value: *quantityView(q("2.977V"))}}}
	return &note.Why{Entry: &note.Entry{Name: "d", Value: record, Form: note.FormComputed, Description: "the <sense> divider"}, Cell: "cell 2", Field: "Output", Part: &record.Items[0].Value,
		Cut: []string{"Vin", "Rtop"}, Inside: []*note.Inner{{Function: "divider.Plain", Steps: []*note.Entry{
			step("Ratio", "lower/total", q("0.248120300752")), step("Output", "input*Ratio", q("2.977V")), step("Duty", "1", q("1"))}},
			{Function: "divider.Other", Trouble: "divider.Other cannot be told step by step: a limit is reached"}}}
}

// why is the derivation of the junction temperature of the regulator.
func why(t *testing.T) *note.Why {
	t.Helper()
	at := map[string]*note.Entry{}
	for _, it := range regulator(t) {
		if e, ok := it.(*note.Entry); ok {
			at[e.Name] = e
		}
	}
	leaf := func(name string) *note.Why { return &note.Why{Entry: at[name], Cell: "cell 1"} }
	rbot := &note.Why{Entry: at["Rbot"], Cell: "cell 1", Inputs: []*note.Why{
		{Entry: at["Rtop"], Cell: "cell 1", Again: true}, {Entry: at["Vref"], Cell: "cell 1", Again: true}}}
	vout := &note.Why{Entry: at["Vout"], Cell: "cell 2", Inputs: []*note.Why{leaf("Vref"), leaf("Rtop"), rbot}}
	pd := &note.Why{Entry: at["Pd"], Cell: "cell 2", Inputs: []*note.Why{leaf("Vin"), vout, leaf("Iout")}}
	again := &note.Why{Entry: at["Vout"], Cell: "cell 2", Again: true}
	return &note.Why{Entry: at["Tj"], Cell: "cell 2", Inputs: []*note.Why{leaf("Ta"), pd, leaf("θJA"), again}}
}

func TestGoldenErrors(t *testing.T) {
	t.Parallel()
	source := "Vin := 24V\ntotal := 3.3V + 20mA // <sum> $\n\tx := 電圧 + ä + Ro\nlong := " + strings.Repeat("Rtop + ", 30) + "oops + Rbot"
	errs := []*cell.Error{
		{Line: 2, Column: 15, Cell: "cell 3", Msg: "cannot add 3.3 V (voltage) and 20 mA (current)"},
		{Line: 3, Column: 16, Cell: "cell 3", Msg: "Ro is not defined", Hint: "did you mean Rout?", Frames: []string{"divide, cell 2 line 4"}},
		{Line: 4, Column: 9 + 7*30, Cell: "cell 3", Msg: "oops is not defined"},
		{Msg: "the cell took longer than 10 s", Hint: "give it more time with --timeout"},
	}
	golden(t, "errors.txt", ErrorText(errs, source))
	golden(t, "errors.html", ErrorHTML(errs, source))
}
