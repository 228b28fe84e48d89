package drawing_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"ohmwright/kernel/drawing"
	"ohmwright/units"
)

// What people write, and what it is: the figures are the marks' own, worked
// out by hand; letters of IEC 60062 from memory, the rest common practice.
func TestReadValue(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text, unit string
		si         float64
		tolerance  float64
		ratings    string
		why        string
	}{
		{"4k7", "Ω", 4700, 0, "", "a letter for the point"},
		{"4K7", "Ω", 4700, 0, "", "the letter of the standard"},
		{"4.7k", "Ω", 4700, 0, "", "a point"},
		{"4,7k", "Ω", 4700, 0, "", "a comma for the point"},
		{"4.7 k", "Ω", 4700, 0, "", "a space before the prefix"},
		{"4.7 kΩ", "Ω", 4700, 0, "", "a value"},
		{"4.7kohm", "Ω", 4700, 0, "", "ASCII"},
		{"4700", "Ω", 4700, 0, "", "a mere number is ohms"},
		{"2R2", "Ω", 2.2, 0, "", "R for the point"},
		{"R47", "Ω", 0.47, 0, "", "R in front"},
		{"220R", "Ω", 220, 0, "", "R behind"},
		{"1M", "Ω", 1e6, 0, "", "M is mega"},
		{"1Meg", "Ω", 1e6, 0, "", "mega, written out"},
		{"1m", "Ω", 1e-3, 0, "", "m is milli"},
		{"0", "Ω", 0, 0, "", "a jumper"},
		{"4.7k 1% 0603", "Ω", 4700, 0.01, "", "tolerance and size"},
		{"10k ±0.5%", "Ω", 10e3, 0.005, "", "tolerance with its sign"},
		{"10k +/-5 %", "Ω", 10e3, 0.05, "", "tolerance apart"},
		{"4k7F", "Ω", 4700, 0.01, "", "F is 1 %"},
		{"10k/0.25W", "Ω", 10e3, 0, "250 mW", "power"},
		{"10k 1/4W 5%", "Ω", 10e3, 0.05, "250 mW", "power as a fraction"},
		{"0.1u", "F", 100e-9, 0, "", "a prefix alone"},
		{"100n", "F", 100e-9, 0, "", "the same"},
		{".1uF", "F", 100e-9, 0, "", "no zero before the point"},
		{"10uF 25V", "F", 10e-6, 0, "25 V", "voltage"},
		{"10 uF 25 V", "F", 10e-6, 0, "25 V", "spaces before units"},
		{"47µ/16V", "F", 47e-6, 0, "16 V", "a stroke"},
		{"47μ,16V,20%", "F", 47e-6, 0.2, "16 V", "the other µ, commas"},
		{"100n_50V_X7R_0603", "F", 100e-9, 0, "50 V", "underscores, a material"},
		{"22u 6V3", "F", 22e-6, 0, "6.3 V", "a voltage with its letter for the point"},
		{"100nK", "F", 100e-9, 0.1, "", "K is 10 %"},
		{"4n7", "F", 4.7e-9, 0, "", "n for the point"},
		{"10pF", "F", 10e-12, 0, "", "pico"},
		{"4.7uH 2A5", "H", 4.7e-6, 0, "2.5 A", "a current"},
		{"4u7", "H", 4.7e-6, 0, "", "u for the point"},
		{"16MHz", "Hz", 16e6, 0, "", "another unit"},
		{"5.1V 500mW", "V", 5.1, 0, "500 mW", "what would be a rating is the value"},
	} {
		v, err := drawing.ReadValue(c.text, c.unit)
		if err != nil || !v.Known || v.NotFitted {
			t.Errorf("%q (%s): %+v, %v", c.text, c.why, v, err)
			continue
		}
		var ratings []string
		for _, r := range v.Ratings {
			ratings = append(ratings, r.String())
		}
		if math.Abs(v.Quantity.SI()-c.si) > 1e-12*c.si || math.Abs(v.Tolerance-c.tolerance) > 1e-12 || strings.Join(ratings, " ") != c.ratings {
			t.Errorf("%q (%s): %v, %v, %v", c.text, c.why, v.Quantity, v.Tolerance, ratings)
		}
	}
	for _, text := range []string{"DNP", "dnp", "n.m.", "not fitted", "10k DNP", "DNP 10k", "100n (not mounted)"} {
		if v, err := drawing.ReadValue(text, "Ω"); !v.NotFitted {
			t.Errorf("%q is fitted: %+v, %v", text, v, err)
		}
	}
	for _, c := range []struct{ text, unit, why string }{
		{"", "Ω", "nothing"}, {"104", "F", "a number, which may be a code"}, {"10k 22k", "Ω", "two values"},
		{"10uF", "Ω", "another unit"}, {"red", "Ω", "a word"}, {"1%", "Ω", "a tolerance alone"}, {"25V", "F", "a rating alone"}, {"±", "Ω", "a sign"},
	} {
		if v, err := drawing.ReadValue(c.text, c.unit); err == nil {
			t.Errorf("%q (%s) is read as %+v", c.text, c.why, v)
		}
	}
}

func TestRead(t *testing.T) {
	t.Parallel()
	type row = drawing.Line
	for _, c := range []struct {
		text string
		want []row
		why  string
	}{
		{"R1,10k\n", []row{{Row: 1, References: []string{"R1"}, Value: "10k"}}, "no head"},
		{"Qty,Value,Reference\n2,10k,\"R1,R2\"\n", []row{{Row: 2, References: []string{"R1", "R2"}, Value: "10k"}}, "columns by name"},
		{"Reference;Value\nR1 R3;4,7k\n", []row{{Row: 2, References: []string{"R1", "R3"}, Value: "4,7k"}}, "semicolons, a comma in the number"},
		{"Ref\tVal\nR1-R4\t10k\n", []row{{Row: 2, References: []string{"R1", "R2", "R3", "R4"}, Value: "10k"}}, "tabs, a range"},
		{"\ufeffref,value\r\nC1-3,100n\r\n", []row{{Row: 2, References: []string{"C1", "C2", "C3"}, Value: "100n"}}, "byte order mark, a short range"},
		{"R1,R2,10k\n", []row{{Row: 1, References: []string{"R1", "R2"}, Value: "10k"}}, "references in columns"},
		{"\"R1\",\"10k, 1%\"\n\n\"R2\",\"2k\"\n", []row{{Row: 1, References: []string{"R1"}, Value: "10k, 1%"}, {Row: 3, References: []string{"R2"}, Value: "2k"}}, "quotes, an empty row"},
		{"ref,value\nR9-R2,1k\n,5k\n", []row{{Row: 2, Value: "1k", Trouble: `"R9-R2" is no range of references`}, {Row: 3, Value: "5k", Trouble: "there is no reference"}}, "rows that cannot be read"},
	} {
		got, err := drawing.Read([]byte(c.text))
		if err != nil {
			t.Errorf("%s: %v", c.why, err)
		} else if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: %s", c.why, d)
		}
	}
	for text, want := range map[string]string{
		"":                      "the list has no part",
		"a b c\n":               `row 1: "a b c" is no reference, and no column is named reference: name the columns reference and value`,
		"Reference,Footprint\n": "row 1: no column is named value: name the columns reference and value",
		"Value,Number\n":        "row 1: no column is named reference: name the columns reference and value",
		"R1,\xff\n":             "the list is neither UTF-8 nor UTF-16 text: export it as UTF-8",
		"Ref,Value\n":           "the list has no part",
	} {
		if _, err := drawing.Read([]byte(text)); err == nil || err.Error() != want {
			t.Errorf("%q: %v", text, err)
		}
	}
	wide := []byte{0xFF, 0xFE}
	for _, u := range utf16.Encode([]rune("R1\t4,7kΩ\n")) {
		wide = append(wide, byte(u), byte(u>>8))
	}
	if got, err := drawing.Read(wide); err != nil || len(got) != 1 || got[0].Value != "4,7kΩ" {
		t.Errorf("UTF-16: %v, %v", got, err)
	}
}

// Planted differences are found, each once, and nothing else.
func TestCompare(t *testing.T) {
	t.Parallel()
	part := func(ref, value string, tolerance float64, ratings ...string) drawing.Part {
		p := drawing.Part{Reference: ref, Text: value, Value: units.MustParse(value), Tolerance: tolerance, Where: "board.ipynb, cell 1, line 1"}
		for _, r := range ratings {
			p.Ratings = append(p.Ratings, units.MustParse(r))
		}
		return p
	}
	parts := []drawing.Part{
		part("R1", "10 kΩ", 0.01), part("R2", "2 kΩ", 0.01), part("R3", "47 Ω", 0), part("R10", "1 kΩ", 0.05), part("C1", "10 µF", 0.2, "16 V"),
		part("C2", "100 nF", 0, "50 V"), part("C3", "1 µF", 0), part("R4", "1 kΩ", 0), part("R5", "1 kΩ", 0),
	}
	lines, err := drawing.Read([]byte("reference,value\nR1,10k 1%\nR2,2k05 1%\nR3,forty\nR10,1k 1%\nC1,10uF 25V\nC2,100n 50V\nR7,22k\nR8,DNP\nR4,DNP\nR5 R1,1k\n"))
	if err != nil {
		t.Fatal(err)
	}
	diffs, agree := drawing.Compare(lines, parts)
	var got []string
	for _, d := range diffs {
		got = append(got, fmt.Sprintf("%s %d %s: %s | %s", d.Reference, d.Row, d.What, d.List, d.Design))
	}
	want := []string{
		"C1 6 rating: 25 V | 16 V",
		"C3 0 only in the design:  | 1 µF (board.ipynb, cell 1, line 1)",
		"R1 11 stands twice in the list: 1k, and 10k 1% in row 2 | ",
		"R2 3 value: 2.05 kΩ | 2 kΩ",
		`R3 4 value cannot be read: "forty" is no value in Ω | 47 Ω`,
		"R4 10 not fitted: DNP | 1 kΩ",
		"R7 8 only in the list: 22k | ",
		"R10 5 tolerance: 1 % | 5 %",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	if agree != 3 { // R1, C2, R5
		t.Errorf("%d parts agree", agree)
	}
}

// Parts that have a text and no value: the same words in another order, another
// case and with other spaces are the same, also where one says more; pairs
// written by hand.
func TestCompareWords(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		design, list string
		same         bool
		why          string
	}{
		{"2 A step-down regulator", "2 A step-down regulator", true, "to the letter"},
		{"2 A step-down regulator", "  STEP-DOWN  Regulator 2A ", true, "case, spaces, order"},
		{"2 A step-down regulator", "regulator", true, "the list says less"},
		{"regulator", "2 A step-down regulator", true, "the list says more"},
		{"40 V, 3 A Schottky diode", "Schottky_40V/3A", true, "other signs between"},
		{"5,1 V zener diode", "Zener diode 5.1V", true, "a comma in the number"},
		{"4.7 µA reference", "reference 4.7μA.", true, "both characters for micro, a full stop"},
		{"40 V, 3 A Schottky diode", "40 A, 3 V Schottky diode", false, "numbers with the units of others"},
		{"2 A step-down regulator", "3 A step-down regulator", false, "another number"},
		{"red LED", "LED red 660 nm", true, "nanometres, no mark of a part that is not mounted"},
		{"regulator", "LDO", false, "another word"},
		{"regulator", "regulators", false, "a part of a word is none"},
	} {
		diffs, agree := drawing.Compare([]drawing.Line{{Row: 1, References: []string{"U1"}, Value: c.list}}, []drawing.Part{{Reference: "U1", Text: c.design, Words: true}})
		if (len(diffs) == 0) != c.same || (agree == 1) != c.same {
			t.Errorf("%s: %+v", c.why, diffs)
		}
		if !c.same && (diffs[0].What != "value" || diffs[0].List != c.list || diffs[0].Design != c.design) {
			t.Errorf("%s: %+v", c.why, diffs)
		}
	}
	for list, want := range map[string]string{"": "has no value in the list", "DNP": "not fitted", "not mounted": "not fitted"} {
		diffs, _ := drawing.Compare([]drawing.Line{{Row: 1, References: []string{"U1"}, Value: list}}, []drawing.Part{{Reference: "U1", Text: "regulator", Words: true}})
		if len(diffs) != 1 || diffs[0].What != want {
			t.Errorf("%q: %+v", list, diffs)
		}
	}
}

// A list never breaks the reader, and what it read is held in bounds.
func FuzzParts(f *testing.F) {
	for _, s := range []string{"R1,10k\n", "Reference;Value\nR1-R4;4,7k 1% 0603\n", "\"R1,R2\"\t47µ/16V", "\ufeffref,value\nC1,10uF 25V\n", "R1,1/4W 1/0W 2R2", "\xff\xfeR\x001\x00", "C1,100nK DNP ± 5 %"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		lines, err := drawing.Read(text)
		if err != nil {
			return
		}
		total := 0
		for _, l := range lines {
			total += len(l.References)
			for _, unit := range []string{"Ω", "F", "H", "V", "Hz"} {
				v, err := drawing.ReadValue(l.Value, unit)
				if err == nil && !v.Known && !v.NotFitted {
					t.Errorf("%q in %s: neither a value nor an error", l.Value, unit)
				}
				if v.Known && (v.Quantity.SIUnit() != unit || v.Quantity.SI() < 0 || v.Tolerance < 0) {
					t.Errorf("%q in %s: %v, %v", l.Value, unit, v.Quantity, v.Tolerance)
				}
			}
		}
		if total > 20_000 {
			t.Errorf("%d references", total)
		}
		drawing.Compare(lines, nil)
	})
}

// What AsBought writes, the reader reads back.
func TestBoughtValuesAreReadBack(t *testing.T) {
	t.Parallel()
	for _, unit := range []string{"Ω", "F", "H"} {
		for power := -12; power < 7; power++ {
			for _, m := range []float64{1, 1.2, 4.7, 9.76} {
				q := units.MustParse("1" + unit).WithSI(m * math.Pow10(power))
				v, err := drawing.ReadValue(q.AsBought(), unit)
				if err != nil || math.Abs(v.Quantity.SI()-q.SI()) > 1e-9*q.SI() {
					t.Errorf("%s: %v, %v", q.AsBought(), v.Quantity, err)
				}
			}
		}
	}
}
