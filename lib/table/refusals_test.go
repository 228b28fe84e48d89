package table

import (
	"strings"
	"testing"

	"ohmwright/units"
)

const ordinary = "ambient [°C], hold current [A], trip current [A]\n-40, 2.2, 4.4\n25, 1.5, 3\n85, 0.8, 1.6\n"

// What is no table, or could be read in two ways; every message says where.
func TestReadRefuses(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ text, want string }{
		{"", "f.csv is empty: write a heading such as ambient [°C], current [A], and a row of values a line"},
		{"# only a comment\n\n\" \"\n", "f.csv, line 3: the heading has one column, and a table needs two: write the input and the output, as in ambient [°C], current [A]"},
		{"\" \",\n", "f.csv is empty: write a heading such as ambient [°C], current [A], and a row of values a line"},
		{"x [V]\n1\n2\n", "f.csv, line 1: the heading has one column, and a table needs two: write the input and the output, as in ambient [°C], current [A]"},
		{"x [V],\n1,\n2,\n", "f.csv, line 1: the heading has one column, and a table needs two: write the input and the output, as in ambient [°C], current [A]"},
		{"x [V]\ty [A]\n1\t2\n", "f.csv, line 1: the columns are separated by tabs: separate them by commas, or save the file as CSV"},
		{"x [V], y [A]\n", "f.csv has 0 rows of values, and a curve needs two: write one at each end of it"},
		{"x [V], y [A]\n1,2\n", "f.csv has one row of values, and a curve needs two: write one at each end of it"},
		{"x [V], y\n1,2\n2,3\n", "f.csv, line 1, column 2: the heading “y” has no unit: write y [V], or [1] as the unit of a plain number"},
		{"x [V], y (mA)\n1,2\n2,3\n", "f.csv, line 1, column 2: the heading “y (mA)” has no unit: write y [mA], or [1] as the unit of a plain number"},
		{"x / V, y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the heading “x / V” has no unit: write x [V], or [1] as the unit of a plain number"},
		{"supply V, y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the heading “supply V” has no unit: write supply [V], or [1] as the unit of a plain number"},
		{"1, 2\n1,2\n2,3\n", "f.csv, line 1, column 1: the heading “1” has no unit: write 1 [V], or [1] as the unit of a plain number"},
		{"x [], y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the unit between the brackets is missing: write it, or [1] for a plain number"},
		{"x [V, y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the heading “x [V” lacks its closing bracket: write for instance ambient [°C]"},
		{"[V], y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the heading “[V]” has no name: write for instance ambient “[V]”"},
		{"x [V] lin, y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the heading “x [V] lin” has “lin” behind its unit: only log may stand there"},
		{"x [Vlot], y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the unit “Vlot” cannot be read: unknown unit Vlot: did you mean ft (foot)?"},
		{"x [kOhmz], y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the unit “kOhmz” cannot be read: unknown unit kOhmz: did you mean kΩ (kOhm)?"},
		{"x [k], y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: the unit “k” cannot be read: k is a prefix without a unit: write a unit behind it, as in kΩ (kohm), kHz or kV"},
		{"x [V],, y [A]\n1,2,3\n2,3,4\n", "f.csv, line 1, column 2: the heading is empty: write a name and a unit, as in ambient [°C]"},
		{"x [V], X [A]\n1,2\n2,3\n", "f.csv, line 1, column 2: the heading “X” is that of column 1 too: give each column a name of its own"},
		{"T [°C] log, y [A]\n1,2\n2,3\n", "f.csv, line 1, column 1: T is a temperature, which has no logarithm: take log from the heading"},
		{"x [V], p [dBm] log\n1,2\n2,3\n", "f.csv, line 1, column 2: p is in dBm, which is a logarithm already: take log from the heading"},
		{"x [V], y [A]\n1,2,3\n2,3\n", "f.csv, line 2: the row has 3 cells, and the heading in line 1 has 2: write decimals with a point, or separate the columns by semicolons"},
		{"x [V]; y [A]\n1;2;3\n2;3\n", "f.csv, line 2: the row has 3 cells, and the heading in line 1 has 2: give every column a heading"},
		{"x [V], y [A]\n1,2\n2\n", "f.csv, line 3: the row has one cell, and the heading in line 1 has 2: write a , for every column, with nothing behind it where nothing is known"},
		{"x [V], y [A]\n1,\"2\n2,3\n", "f.csv, line 2: a quotation mark stands where a cell neither starts nor ends: put both around the whole cell, or leave them out"},
		{"x [V], y [A]\n1,2\n2,3\"\n", "f.csv, line 3: a quotation mark stands where a cell neither starts nor ends: put both around the whole cell, or leave them out"},
		{"x [V], y [A]\n1,\"1,5\"\n2,3\n", "f.csv, line 2, column 2 (y): “1,5” has a comma: write decimals with a point, as in 1.5, and thousands without a sign between"},
		{"x [V]; y [A]\n1,5;1.5\n2;3\n", "f.csv, line 2, column 2 (y): “1.5” has a decimal point and “1,5”, in line 2, a decimal comma: write all decimals with a point"},
		{"x [V]; y [A]\n1;2\n1,500;3\n", "f.csv, line 3, column 1 (x): “1,500” could be a decimal or a thousand: write all decimals with a point and thousands without a sign between"},
		{"x [V]; y [A]\n0,1;2\n1,500,000;3\n", "f.csv, line 3, column 1 (x): “1.500,000” has a comma: write decimals with a point, as in 1.5, and thousands without a sign between"},
		{"x [V], y [A]\n1,1 000\n2,3\n", "f.csv, line 2, column 2 (y): “1 000” has a sign between its digits: write thousands without one, as in 1000 or 1e3"},
		{"x [V], y [A]\n1,1'000\n2,3\n", "f.csv, line 2, column 2 (y): “1'000” has a sign between its digits: write thousands without one, as in 1000 or 1e3"},
		{"x [V], y [A]\n1,1_000\n2,3\n", "f.csv, line 2, column 2 (y): “1_000” has a sign between its digits: write thousands without one, as in 1000 or 1e3"},
		{"x [V], y [A]\n1,NaN\n2,3\n", "f.csv, line 2, column 2 (y): “NaN” is no number: write a plain number in A, or leave an output blank where nothing is known"},
		{"x [V], y [A]\n1,-Inf\n2,3\n", "f.csv, line 2, column 2 (y): “-Inf” is no number: write a plain number in A, or leave an output blank where nothing is known"},
		{"x [V], y [A]\n1,∞\n2,3\n", "f.csv, line 2, column 2 (y): “∞” is no number: write a plain number in A, or leave an output blank where nothing is known"},
		{"x [V], y [A]\n1,n/a\n2,3\n", "f.csv, line 2, column 2 (y): “n/a” is no number: write a plain number in A, or leave an output blank where nothing is known"},
		{"x [V], y [A]\n1,1e999\n2,3\n", "f.csv, line 2, column 2 (y): cannot read “1e999 A”: the number is too large: the largest is about 1.8e308 in SI units"},
		{"x [V], y [A]\n1,1e31\n2,3\n", "f.csv, line 2, column 2 (y): “1e31” is beyond what a table holds, 1e-30 to 1e30 in SI units: check its prefix and exponent"},
		{"x [V], y [A]\n1,0x1F\n2,3\n", "f.csv, line 2, column 2 (y): cannot read “0x1F”: only decimal numbers are values: write the number in base ten"},
		{"x [V], y [A]\n1,250 mV\n2,3\n", "f.csv, line 2, column 2 (y): “250 mV” is not of the kind of A: write a plain number in A, or a value in another unit of that kind"},
		{"x [V], y [°C]\n1,300 K\n2,3\n", "f.csv, line 2, column 2 (y): “300 K” is not of the kind of °C: write a plain number in °C, or a value in another unit of that kind"},
		{"x [V], y [°C]\n1,-300\n2,3\n", "f.csv, line 2, column 2 (y): cannot read “-300 °C”: the temperature is below absolute zero: −273.15 °C is the lowest"},
		{"x [V], y [Ω/sq]\n1,4 ohm\n2,3\n", "f.csv, line 2, column 2 (y): “4 ohm” is not of the kind of Ω/sq: write a plain number in Ω/sq, or a value in another unit of that kind"},
		{"x [V], y [A]\n1,25 mAmp\n2,3\n", "f.csv, line 2, column 2 (y): cannot read “25 mAmp”: unknown unit mAmp: did you mean mm?"},
		{"x [V], r [Ω]\n1,4k7F\n2,3\n", "f.csv, line 2, column 2 (r): “4k7F” has a tolerance letter, and the values of a table are exact: write the value alone, and the tolerance behind what At returns"},
		{"x [V], r [Ω]\n1,10 ± 1%\n2,3\n", "f.csv, line 2, column 2 (r): “10 ± 1%” has a tolerance, and the values of a table are exact: write the value alone, and the tolerance behind what At returns"},
		{"x [V], r [Ω]\n1,10 # a guess\n2,3\n", "f.csv, line 2, column 2 (r): “10 # a guess” has a comment: write comments into lines of their own that start with #"},
		{"f [Hz] log, y [A]\n0,2\n2,3\n", "f.csv, line 2, column 1 (f): f is 0 Hz, which no logarithmic axis has: take log from the heading, or leave the value out"},
		{"f [Hz], y [A] log\n0,2\n2,-3\n", "f.csv, line 3, column 2 (y): y is −3 A, which no logarithmic axis has: take log from the heading, or leave the value out"},
		{"x [V], y [A]\n1,2\n,3\n", "f.csv, line 3, column 1 (x): the input is blank: write its value, or leave the row out"},
		{"x [V], y [A]\n1,2\n2,\n", "f.csv, column 2 (y) has one value, and a curve needs two: write one at each end of it"},
		{"x [V], y [A]\n1,2\n1,3\n", "f.csv, line 3, column 1 (x): x 1 V comes twice: write the rows with rising x"},
		{"x [V], y [A]\n2,2\n1,3\n", "f.csv, line 3, column 1 (x): x 1 V comes behind 2 V: write the rows with rising x"},
		{"T [°C], a [A], b [A]\n25,1,2\n85,2,3\n-40,3,4\n", "f.csv, line 4, column 1 (T): T −40 °C comes behind 85 °C: write the rows with rising T; in a family of curves, a is the same in every row of a curve"},
		{"I [A], T [°C], V [mV]\n0,25,0\n1,25,9\n0.5,25,7\n0,85,1\n1,85,3\n", "f.csv, line 4, column 1 (I): I 500 mA comes behind 1 A in the curve of T 25 °C: write the rows with rising I"},
		{"I [A], T [°C], V [mV]\n0,25,0\n1,25,9\n0,85,1\n", "f.csv, line 4, column 3 (V): the curve of T 85 °C has one value of V, and a curve needs two; if T is an output, I must rise from row to row"},
		{"I [A], T [°C], V [mV]\n0,25,0\n1,25,9\n0,,1\n1,85,2\n", "f.csv, line 4, column 2 (T): the input is blank: write its value, or leave the row out"},
		{"x [V], y [A]\n1,2\xb0\n", "f.csv, line 2: this is no text in UTF-8: save the file as CSV in UTF-8"},
		{"x\x00 \x00[\x00V\x00]\x00", "f.csv, line 1: this is no text in UTF-8: save the file as CSV in UTF-8"},
		{"x [V], y [A]\n" + strings.Repeat("1,2\n", 1<<20), "f.csv is larger than 4 MB: write the rows that the curve needs, some tens of them"},
	} {
		_, err := Read("f.csv", c.text)
		if err == nil || err.Error() != c.want {
			t.Errorf("%.60q:\n\tsays %v\n\twant %s", c.text, err, c.want)
		}
	}
}

func TestUseRefuses(t *testing.T) {
	t.Parallel()
	hold := ok(t)(Read("hold.csv", ordinary))
	one := ok(t)(hold.Of("hold current"))
	family := must(t, "load [A], junction [°C], dropout [mV]\n0,25,0\n0.5,25,300\n0,125,0\n0.2,125,150\n")
	study := units.NewStudy(units.StudyOptions{})
	hot := study.Place("Ta", "Ta", units.Range(q("-20 °C"), q("25 °C"), q("95 °C")))
	at := func(table Table, x ...units.Quantity) error { _, err := table.At(x...); return err }
	changed := func(_ Table, err error) error { return err }
	named := func(_ []units.Quantity, err error) error { return err }
	var unset units.Quantity
	_, _, noEnds := hold.Ends("load")
	for _, c := range []struct {
		name string
		err  error
		want string
	}{
		{"no table", at(Table{}, q("1 V")), `no table is given: write Table("file.csv") or table.Text("…")`},
		{"no table, a column", named(Table{}.Column("x")), `no table is given: write Table("file.csv") or table.Text("…")`},
		{"several outputs", at(hold, q("25 °C")), `hold.csv has 2 outputs: say which one with Of("hold current")`},
		{"too few values", at(family, q("0.1 A")), "the table: At gets one value, and the table has 2 inputs: write load and junction"},
		{"too many values", at(one, q("25 °C"), q("1 A")), "hold.csv: At gets 2 values, and the table has one input: write ambient"},
		{"not given", at(one, unset), "hold.csv: ambient is not given, or is the bare number 0: write it in °C"},
		{"another kind", at(one, q("25 K")), "hold.csv: ambient is 25 K: write it in °C"},
		{"above", at(one, q("95 °C")), "hold.csv: ambient is 95 °C; the column goes from −40 °C to 85 °C: add rows there, or say with Held() that the end values hold"},
		{"above in a case", at(one, hot), "hold.csv: ambient is 95 °C where Ta is 95 °C; the column goes from −40 °C to 85 °C: add rows there, or say with Held() that the end values hold"},
		{"below", at(one, q("-55 °C")), "hold.csv: ambient is −55 °C; the column goes from −40 °C to 85 °C: add rows there, or say with Held() that the end values hold"},
		{"beyond the curves", at(family, q("0.1 A"), q("150 °C")), "the table: junction is 150 °C; the column goes from 25 °C to 125 °C: add rows there, or say with Held() that the end values hold"},
		{"beyond a curve", at(family, q("0.3 A"), q("75 °C")), "the table: load is 300 mA; the curve of junction 125 °C goes from 0 A to 200 mA: add rows there, or say with Held() that the end values hold"},
		{"no number", at(one.Held(), q("25 °C").Add(q("1 K").Mul(units.Number(nan())))), "hold.csv: ambient is NaN °C; the column goes from −40 °C to 85 °C: it cannot be read so far outside"},
		{"straight on without end", at(one.Extended(), q("1e30 °C")), "hold.csv: ambient is 1e30 °C; the column goes from −40 °C to 85 °C: it cannot be read so far outside"},
		{"unknown column", changed(hold.Of("hold curent")), `hold.csv has no column "hold curent": did you mean "hold current"? It has ambient, hold current and trip current`},
		{"nothing near", named(hold.Column("efficiency")), `hold.csv has no column "efficiency": it has ambient, hold current and trip current`},
		{"ends", noEnds, `hold.csv has no column "load": it has ambient, hold current and trip current`},
		{"an input", changed(hold.Of("ambient")), "hold.csv: ambient is an input of the table: name an output, one of hold current and trip current"},
		{"log of a temperature", changed(hold.Log("ambient")), "hold.csv: ambient is a temperature, which has no logarithm: take log from the heading"},
		{"log of zero", changed(family.Log("load")), "the table: load is 0 A, which no logarithmic axis has: take log from the heading, or leave the value out"},
		{"log of nothing", changed(hold.Log()), "hold.csv: no column is named: write which ones, of ambient, hold current and trip current"},
		{"linear of nothing", changed(hold.Linear("x")), `hold.csv has no column "x": it has ambient, hold current and trip current`},
		{"inverse of two", changed(hold.Inverse()), `hold.csv has 2 outputs: say which one with Of("hold current")`},
		{"inverse of a family", changed(family.Inverse()), "the table: a family of curves has no inverse: write the rows of one curve into a table of their own"},
		{"inverse of a hill", changed(must(t, "x [V], y [A]\n0,0\n1,2\n2,1.5\n3,4").Inverse()), "the table: y has no inverse, because it neither rises all the way nor falls: it is 2 A at x 1 V and 1.5 A at 2 V"},
		{"inverse of a level", changed(must(t, "x [V], y [A]\n0,0\n1,\n2,0\n").Inverse()), "the table: y has no inverse, because it neither rises all the way nor falls: it is 0 A at x 0 V and 0 A at 2 V"},
		{"no curve", Table{}.Expect("DCBias", "V", "%"), "DCBias is not given: write a table whose columns are in V and %, such as Table(\"file.csv\") or table.Text(\"…\")"},
		{"another unit", one.Expect("Hold", "°C", "V"), "Hold: column 2 of hold.csv (hold current) is in A; it must be in V, or in another unit of that kind"},
		{"a difference", one.Expect("Hold", "K", "A"), "Hold: column 1 of hold.csv (ambient) is in °C; it must be in K, or in another unit of that kind"},
		{"undecided", hold.Expect("Hold", "°C", "A"), `Hold: hold.csv has 2 outputs: say which one with Of("hold current")`},
		{"a family expected", one.Expect("Drop", "°C", "V", "A"), "Drop: hold.csv has one input before the output, and 2 are needed, in °C and V: write the second input into the second column, the same in every row of one curve"},
		{"a curve expected", family.Expect("Drop", "A", "mV"), "Drop: the table has 2 inputs before the output, and one is needed, in A: write the rows of one curve, with rising inputs"},
		{"as expected", one.Expect("Hold", "°F", "mA"), ""},
		{"a family as expected", family.Expect("Drop", "A", "°C", "V"), ""},
		{"curve of different lengths", changed(Curve([]units.Quantity{q("1 V"), q("2 V")}, []units.Quantity{q("1 A")})), "the curve: the number of x is 2, that of y 1: write at least two of each, and as many of one as of the other"},
		{"curve of one point", changed(Curve([]units.Quantity{q("1 V")}, []units.Quantity{q("1 A")})), "the curve: the number of x is 1, that of y 1: write at least two of each, and as many of one as of the other"},
		{"curve of mixed units", changed(Curve([]units.Quantity{q("1 V"), q("2 A")}, []units.Quantity{q("1 A"), q("2 A")})), "the curve, point 2, x: 2 A is not of the kind of 1 V, the first: give all values in the same unit"},
		{"curve with a bare zero", changed(Curve([]units.Quantity{unset, q("2 A")}, []units.Quantity{q("1 A"), q("2 A")})), "the curve, point 1, x: the value is not given, or is the bare number 0: write it with its unit, such as 0 A"},
		{"curve that falls back", changed(Curve([]units.Quantity{q("2 V"), q("1 V")}, []units.Quantity{q("1 A"), q("2 A")})), "the curve, point 2, x: x 1 V comes behind 2 V: write the rows with rising x"},
		{"curve with spread", changed(Curve([]units.Quantity{q("-40 °C"), hot}, []units.Quantity{q("1 A"), q("2 A")})), "the curve, point 2, x: 25 °C spreads, and the values of a table are exact: write the tolerance behind what At returns"},
		{"curve too large", changed(Curve([]units.Quantity{q("0 V"), q("1e31 V")}, []units.Quantity{q("1 A"), q("2 A")})), "the curve, point 2, x: “1e19 TV” is beyond what a table holds, 1e-30 to 1e30 in SI units: check its prefix and exponent"},
	} {
		got := ""
		if c.err != nil {
			got = c.err.Error()
		}
		if got != c.want {
			t.Errorf("%s:\n\tsays %s\n\twant %s", c.name, got, c.want)
		}
	}
	if splits, n := study.TakeSplits(); n > 0 {
		t.Errorf("a check decides for all cases: %v", splits)
	}
}

// What a table says of itself.
func TestFacts(t *testing.T) {
	t.Parallel()
	hold := ok(t)(Read("hold.csv", ordinary))
	if got, want := hold.String(), "3 rows: hold current 800 mA … 2.2 A and trip current 1.6 A … 4.4 A over ambient −40 °C … 85 °C"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got, want := ok(t)(hold.Of("trip current")).Held().String(), "3 rows: trip current 1.6 A … 4.4 A over ambient −40 °C … 85 °C, ends held"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if got, want := must(t, "f [Hz] log, T [°C], z [Ω] log\n1k,25,3\n1M,25,1\n1k,85,4\n1M,85,2").Extended().String(), "4 rows: z 1 Ω … 4 Ω (log) over f 1 kHz … 1 MHz (log) and T 25 °C … 85 °C, straight on beyond its ends"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	low, high, err := hold.Ends("hold current")
	near(t, "the least", low, err, "0.8 A", 0)
	near(t, "the most", high, err, "2.2 A", 0)
	// SHA-256 of the text by sha256sum.
	if got, want := hold.Hash(), "bf2a1f7ab6cc"; got != want {
		t.Errorf("hash %s, want %s", got, want)
	}
	if hold.Name() != "hold.csv" || !hold.Given() || hold.Rows() != 3 || (Table{}).Given() || (Table{}).Rows() != 0 || (Table{}).String() != "no table" {
		t.Error("a fact is wrong")
	}
	// Each output has the rows in which it is not blank.
	gaps := must(t, "x [V], y [A], z [1]\n0,0,\n1,,5\n2,4,\n3,,9")
	y, err := ok(t)(gaps.Of("y")).At(q("1 V"))
	near(t, "y across a gap", y, err, "2 A", 0)
	z, err := ok(t)(gaps.Of("z")).At(q("2 V"))
	near(t, "z across a gap", z, err, "7", 0)
	back, err := ok(t)(ok(t)(gaps.Of("z")).Inverse()).At(q("6"))
	near(t, "back across a gap", back, err, "1.5 V", 1e-15)
	if list, err := gaps.Column("z"); err != nil || len(list) != 2 {
		t.Errorf("z: %v, %v", list, err)
	}
	// A caller cannot change a table by what it got.
	list, _ := gaps.Column("x")
	list[0] = q("9 V")
	if again, _ := gaps.Column("x"); !again[0].Same(q("0 V")) {
		t.Error("the table changed with a column that it gave")
	}
	// The bare number 0 is a value of a column of plain numbers.
	n := must(t, "n [1], y [A]\n-1,0\n1,4")
	var zero units.Quantity
	got, err := n.At(zero)
	near(t, "at 0", got, err, "2 A", 0)
}
