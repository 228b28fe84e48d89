package preferred

import (
	"math"
	"testing"

	"ohmwright/units"
)

// Every message of the package, exactly.
func TestRefusals(t *testing.T) {
	t.Parallel()
	drawer, err := Stock(q("100 Ω"), q("10 kΩ"))
	if err != nil {
		t.Fatal(err)
	}
	pick := func(f func(Series, units.Quantity) units.Quantity, s Series, x units.Quantity) func() error {
		return func() error { f(s, x); return nil }
	}
	returns := func(err error) func() error { return func() error { return err } }
	second := func(_ any, err error) error { return err }
	for _, test := range []struct {
		name string
		f    func() error
		want string
	}{
		{"negative", pick(Nearest, E96, q("-4.7 kΩ")), "panic: cannot choose the nearest to −4.7 kΩ: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"zero", pick(AtLeast, E96, q("0 Ω")), "panic: cannot choose a value of at least 0 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"constant zero", pick(Nearest, E96, units.Quantity{}), "panic: cannot choose the nearest to 0: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"infinite", pick(Nearest, E96, units.Number(math.Inf(1))), "panic: cannot choose the nearest to +Inf: it is not a finite number: check the formula it comes from for a division by zero"},
		{"not a number", pick(Nearest, E96, units.Number(math.NaN())), "panic: cannot choose the nearest to NaN: it is not a finite number: check the formula it comes from for a division by zero"},
		{"point", pick(Nearest, E96, q("25 °C")), "panic: cannot choose the nearest to 25 °C: a point on the temperature scale has no preferred number: take a difference of temperatures, or the value of a part"},
		{"level", pick(AtMost, E96, q("14 dBm")), "panic: cannot choose a value of at most 14 dBm: a value in decibels has no preferred number: turn it into a plain quantity first: Power(x), PowerRatio(g), VoltageRatio(g)"},
		{"gain", pick(AtMost, E96, q("3 dB")), "panic: cannot choose a value of at most 3 dB: a value in decibels has no preferred number: turn it into a plain quantity first: Power(x), PowerRatio(g), VoltageRatio(g)"},
		{"huge", pick(AtMost, E96, units.Number(1e31)), "panic: cannot choose a value of at most 1e31: no part is that size: choices are made from 1e-30 to 1e30 of its unit; check the prefix"},
		{"spread at least", pick(AtLeast, E24, units.Tolerance(q("10 kΩ"), q("1 %"))), "panic: AtLeast(E24, x) got x with spread, nominally 10 kΩ: a limit needs one value: say which end counts: AtLeast(E24, High(x)), Low(x) or Nominal(x)"},
		{"spread at most", pick(AtMost, E24, units.Tolerance(q("10 kΩ"), q("1 %"))), "panic: AtMost(E24, x) got x with spread, nominally 10 kΩ: a limit needs one value: say which end counts: AtMost(E24, High(x)), Low(x) or Nominal(x)"},
		{"unknown series", pick(Nearest, Series{Name: "E25"}, q("1 Ω")), `panic: "E25" is not a preferred-number series: use E3, E6, E12, E24, E48, E96 or E192, or Stock for values of your own`},
		{"stock too small", pick(AtLeast, drawer, q("11 kΩ")), "panic: stock holds nothing at or above 11 kΩ: it goes from 100 Ω to 10 kΩ: choose from a series, or combine two parts with SeriesPair or ParallelPair"},
		{"stock too large", pick(AtMost, drawer, q("99 Ω")), "panic: stock holds nothing at or below 99 Ω: it goes from 100 Ω to 10 kΩ: choose from a series, or combine two parts with SeriesPair or ParallelPair"},
		{"stock of another kind", pick(Nearest, drawer, q("1 µF")), "panic: stock holds values such as 100 Ω; it has nothing in F: ask for a value of the kind that the stock holds"},
		{"next beyond", returns(second(Next(drawer, q("10 kΩ")))), "stock holds nothing above 10 kΩ: it goes from 100 Ω to 10 kΩ: choose from a series, or combine two parts with SeriesPair or ParallelPair"},
		{"previous beyond", returns(second(Previous(drawer, q("100 Ω")))), "stock holds nothing below 100 Ω: it goes from 100 Ω to 10 kΩ: choose from a series, or combine two parts with SeriesPair or ParallelPair"},
		{"next of zero", returns(second(Next(E24, q("0 Ω")))), "cannot step up from 0 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"previous of a negative", returns(second(Previous(E24, q("-1 Ω")))), "cannot step down from −1 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"empty stock", returns(second(Stock())), "a stock needs at least one value: write the values: Stock(1kΩ, 10kΩ)"},
		{"mixed stock", returns(second(Stock(q("1 Ω"), q("1 F")))), "value 2 of a stock is 1 F, the first is 1 Ω: make one stock for each kind of part"},
		{"zero in a stock", returns(second(Stock(q("1 Ω"), q("0 Ω")))), "value 2 of a stock is 0 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"members reversed", returns(second(Members(E24, q("10 Ω"), q("1 Ω")))), "cannot list members: from is 10 Ω, above to, which is 1 Ω: exchange the two ends"},
		{"members mixed", returns(second(Members(E24, q("10 Ω"), q("1 V")))), "cannot list members: from is 10 Ω and to is 1 V: give both ends in the same unit"},
		{"members huge", returns(second(Members(E192, q("1 Ω"), q("1e20 Ω").Mul(units.Number(1e20))))), "cannot list members: to is 1e28 TΩ: no part is that size: choices are made from 1e-30 to 1e30 of its unit; check the prefix"},
		{"members many", returns(second(Members(E192, units.Number(1e-29), units.Number(1e29)))), "cannot list members from 1e-29 to 1e29: there are 11137: list at most 10000; check the prefixes of the two ends"},
		{"members of zero", returns(second(Members(E24, q("0 Ω"), q("1 Ω")))), "cannot list members: from is 0 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"members to a negative", returns(second(Members(E24, q("1 Ω"), q("-1 Ω")))), "cannot list members: to is −1 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"ratio zero", returns(second(RatioPair(E24, units.Number(0), q("1 kΩ"), q("10 kΩ")))), "cannot choose a pair for the ratio 0: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"ratio with a unit", returns(second(RatioPair(E24, q("2 V"), q("1 kΩ"), q("10 kΩ")))), "cannot choose a pair for the ratio 2 V: it has a unit: divide the two values: a ratio is a plain number"},
		{"ratio range reversed", returns(second(RatioPair(E24, units.Number(2), q("10 kΩ"), q("1 kΩ")))), "cannot choose a pair: least is 10 kΩ, above most, which is 1 kΩ: exchange the two ends"},
		{"ratio range empty", returns(second(RatioPair(E3, units.Number(2), q("5 kΩ"), q("6 kΩ")))), "E3 has no member from 5 kΩ to 6 kΩ: widen the range, or take a series with more members"},
		{"ratio range huge", returns(second(RatioPair(E192, units.Number(2), units.Number(1e-29), units.Number(1e29)))), "cannot choose a pair from 1e-29 to 1e29: there are 11137 members between: narrow the range; check the prefixes of the two ends"},
		{"series pair negative", returns(second(SeriesPair(E24, q("-1 kΩ")))), "cannot choose a series pair for −1 kΩ: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"parallel pair infinite", returns(second(ParallelPair(E24, units.Number(math.Inf(1))))), "cannot choose a parallel pair for +Inf: it is not a finite number: check the formula it comes from for a division by zero"},
		{"parallel pair out of reach", returns(second(ParallelPair(drawer, q("11 MΩ")))), "cannot choose a parallel pair for 11 MΩ: stock holds no part in reach: choose from a series, or add parts to the stock"},
		{"rkm unit", returns(second(ParseRKM("4K7", "V"))), `marking "4K7" in "V": marking codes are for resistors, capacitors and inductors: give the unit as Ω, F or H`},
		{"rkm unit unknown", returns(second(ParseRKM("4K7", "Ohmz"))), `marking "4K7" in "Ohmz": marking codes are for resistors, capacitors and inductors: give the unit as Ω, F or H`},
		{"rkm figures", returns(second(FormatRKM(q("1.23456 kΩ")))), "marking of 1.23456 kΩ: a letter and digit code holds 4 significant figures: choose a preferred value first, such as Nearest(E96, x)"},
		{"rkm size", returns(second(FormatRKM(q("1e15 Ω").Mul(units.Number(1000))))), "marking of 1000000 TΩ: the letters RKMGT do not reach that size: check its prefix"},
		{"rkm of a voltage", returns(second(FormatRKM(q("5 V")))), "cannot write a letter and digit code for 5 V: marking codes are for resistors, capacitors and inductors: give the value in Ω, F or H"},
		{"rkm of zero", returns(second(FormatRKM(q("0 Ω")))), "cannot write a letter and digit code for 0 Ω: it must be above zero: check the sign of the formula it comes from, or take Abs(x)"},
		{"numeric letters", returns(second(ParseNumeric("1K3", "Ω"))), `marking "1K3": it has other letters than one R among two or three figures: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"numeric length", returns(second(ParseNumeric("12345", "Ω"))), `marking "12345": it has 5 figures: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"numeric zero first", returns(second(ParseNumeric("012", "Ω"))), `marking "012": it starts with 0: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"numeric nine", returns(second(ParseNumeric("109", "Ω"))), `marking "109": its last digit is 8 or 9, which has a meaning on capacitors only: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"numeric zero", returns(second(ParseNumeric("0R0", "Ω"))), `marking "0R0": it has no figure above zero: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"numeric empty", returns(second(ParseNumeric("", "Ω"))), `marking "": it has 0 figures: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"numeric unit", returns(second(ParseNumeric("103", "W"))), `marking "103" in "W": marking codes are for resistors, capacitors and inductors: give the unit as Ω, F or H`},
		{"numeric tolerance", returns(second(ParseNumeric("0F", "F"))), `marking "0F": it has other letters than one R among two or three figures: write two or three figures and the number of zeros, such as 103 or 1002, or R as the decimal point, such as 4R7`},
		{"format digits", returns(second(FormatNumeric(q("1 Ω"), 5))), "marking with 5 digits: there are codes of 3 and of 4: give one of these"},
		{"format figures", returns(second(FormatNumeric(q("499 Ω"), 3))), "marking of 499 Ω: a code of 3 digits holds 2 significant figures: choose a preferred value first, such as Nearest(E96, x)"},
		{"format large", returns(second(FormatNumeric(q("10 GΩ"), 3))), "marking of 10 GΩ: a digit code has at most seven zeros: check its prefix"},
		{"format small", returns(second(FormatNumeric(q("4.7 mΩ"), 3))), "marking of 4.7 mΩ: a code of 3 digits does not reach so low: use the letter and digit code"},
		{"eia form", returns(second(ParseEIA96("1A"))), `marking "1A": the code of 1 % chip resistors is two figures and a letter, such as 01A`},
		{"eia number", returns(second(ParseEIA96("97A"))), `marking "97A": its figures are 97; members of E96 are counted from 01 to 96`},
		{"eia letter", returns(second(ParseEIA96("01H"))), `marking "01H": its letter is 'H'; the multipliers are Z Y X A B C D E F (also R for Y, S for X): look the letter up in the maker's table`},
		{"eia no member", returns(second(FormatEIA96(q("4.7 kΩ")))), "marking of 4.7 kΩ: the code of 1 % chip resistors holds members of E96 only: choose one with Nearest(E96, x)"},
		{"eia range", returns(second(FormatEIA96(q("1 GΩ")))), "marking of 1 GΩ: the code of 1 % chip resistors goes from 100 mΩ to 97.6 MΩ: use the letter and digit code"},
		{"eia capacitor", returns(second(FormatEIA96(q("100 nF")))), "marking of 100 nF: the code of 1 % chip resistors is for resistors: give a value in Ω"},
		{"bands few", returns(second(FromBands("red", "red"))), "a resistor with 2 bands: it has three to six, or one black band: write a colour for each band"},
		{"bands unknown", returns(second(FromBands("red", "purple", "red"))), `band 2 is "purple", which is no colour of the code: write one of pink silver gold black brown red orange yellow green blue violet grey white`},
		{"bands figure", returns(second(FromBands("gold", "red", "red"))), "band 1 is gold, which is no figure: write one of black brown red orange yellow green blue violet grey white"},
		{"bands black", returns(second(FromBands("black", "black", "red"))), "a resistor whose figures are all black: that is 00: check which end the bands start from"},
		{"bands tolerance", returns(second(FromBands("red", "red", "red", "black"))), "band 4 is black, which is no tolerance: write one of silver gold brown red orange yellow green blue violet"},
		{"bands grey tolerance", returns(second(FromBands("red", "red", "red", "grey"))), "band 4 is grey as a tolerance: older editions of IEC 60062 mean 0.05 %, that of 2016 means 0.01 %: take the tolerance from the data sheet"},
		{"bands coefficient", returns(second(FromBands("red", "red", "red", "red", "red", "white"))), "band 6 is white, which is no temperature coefficient: write one of black brown red orange yellow green blue violet grey"},
		{"bands number", returns(second(Bands(Marking{Value: q("1 Ω")}, 7))), "marking with 7 bands: a resistor has three to six: give one of these"},
		{"bands figures", returns(second(Bands(Marking{Value: q("499 Ω"), Tolerance: q("1 %")}, 4))), "marking of 499 Ω: a code of 4 bands holds 2 significant figures: choose a preferred value first, such as Nearest(E96, x)"},
		{"bands size", returns(second(Bands(Marking{Value: q("1e12 Ω"), Tolerance: q("1 %")}, 4))), "marking of 1 TΩ: no multiplier colour reaches that size with 2 figures: check its prefix"},
		{"bands no tolerance", returns(second(Bands(Marking{Value: q("1 Ω")}, 4))), "marking of 1 Ω: its tolerance is not given: give one of 10 %, 5 %, 1 %, 2 %, 0.05 %, 0.02 %, 0.5 %, 0.25 %, 0.1 %"},
		{"bands odd tolerance", returns(second(Bands(Marking{Value: q("1 Ω"), Tolerance: q("3 %")}, 4))), "marking of 1 Ω: there is no colour for a tolerance of 3 %: give one of 10 %, 5 %, 1 %, 2 %, 0.05 %, 0.02 %, 0.5 %, 0.25 %, 0.1 %"},
		{"bands three", returns(second(Bands(Marking{Value: q("1 Ω"), Tolerance: q("5 %")}, 3))), "marking of 1 Ω: three bands mean a tolerance of 20 %, this one is 5 %: ask for four bands or more"},
		{"bands no coefficient", returns(second(Bands(Marking{Value: q("1 Ω"), Tolerance: q("5 %")}, 6))), "marking of 1 Ω: its temperature coefficient is not given: give one of 250 ppm/K, 100 ppm/K, 50 ppm/K, 15 ppm/K, 25 ppm/K, 20 ppm/K, 10 ppm/K, 5 ppm/K, 1 ppm/K"},
		{"bands capacitor", returns(second(Bands(Marking{Value: q("1 nF"), Tolerance: q("5 %")}, 4))), "marking of 1 nF: colour bands are for resistors: give a value in Ω"},
	} {
		if got := message(test.f); got != test.want {
			t.Errorf("%s:\ngot  %s\nwant %s", test.name, got, test.want)
		}
	}
}
