package solar

import (
	"testing"

	"ohmwright/lib/internal/expect"
)

// Every check of the package with a value that meets it, and its message.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	battery := func(change func(*BatteryInputs)) error {
		in := BatteryInputs{Daily: q("1 kWh"), Days: q("3"), Depth: q("50 %"), Kept: q("95 %"), Voltage: q("12 V")}
		change(&in)
		return e(Battery(in))
	}
	year := func(change func(*YearInputs)) error {
		in := YearInputs{Sun: expect.Table("month [1], sun [h]\n1, 1\n6, 5\n12, 1"), Panel: q("1 W"), Kept: q("50 %"), Load: q("30 mW"), Battery: q("1.8 Wh")}
		change(&in)
		return e(Year(in))
	}
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"no energy", e(Panel(q("0 Wh"), q("5 h"), q("70 %"))), `solar.Panel: energy is 0 Wh; it must be above 0 Wh: write its energy, such as 10 Wh`},
		{"no sun", e(Panel(q("1 kWh"), q("0 h"), q("70 %"))), `solar.Panel: sun is 0 h; it must be above 0 s: write its time, such as 10 µs`},
		{"sun of more than a day", e(Panel(q("1 kWh"), q("25 h"), q("70 %"))), `solar.Panel: sun is 25 h; it must not be above the whole day, 24 h: write peak sun hours of one day`},
		{"sun all day", e(Panel(q("1 kWh"), q("24 h"), q("70 %"))), "no error"},
		{"nothing kept", e(Panel(q("1 kWh"), q("5 h"), q("0 %"))), `solar.Panel: kept is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"more than all kept", e(Panel(q("1 kWh"), q("5 h"), q("101 %"))), `solar.Panel: kept is 101 %; it must not be above all of it, 1: write the share that comes to the load`},
		{"all kept", e(Panel(q("1 kWh"), q("5 h"), q("100 %"))), "no error"},
		{"daily", battery(func(in *BatteryInputs) { in.Daily = q("0 Wh") }), `solar.Battery: Daily is 0 Wh; it must be above 0 Wh: write its energy, such as 10 Wh`},
		{"days", battery(func(in *BatteryInputs) { in.Days = q("3 d") }), `solar.Battery: Days is 3 d; it must be a share: write it in %, such as 60 %`},
		{"depth zero", battery(func(in *BatteryInputs) { in.Depth = q("0 %") }), `solar.Battery: Depth is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"depth above", battery(func(in *BatteryInputs) { in.Depth = q("101 %") }), `solar.Battery: Depth is 101 %; it must not be above all of it, 1: write the share that may be taken`},
		{"depth of all", battery(func(in *BatteryInputs) { in.Depth = q("100 %") }), "no error"},
		{"kept above", battery(func(in *BatteryInputs) { in.Kept = q("101 %") }), `solar.Battery: Kept is 101 %; it must not be above all of it, 1: write the share that comes to the load`},
		{"cold above", battery(func(in *BatteryInputs) { in.Cold = q("101 %") }), `solar.Battery: Cold is 101 %; it must not be above all of it, 1: write the share that is there in the cold`},
		{"cold zero", battery(func(in *BatteryInputs) { in.Cold = q("0 %") }), `solar.Battery: Cold is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"voltage", battery(func(in *BatteryInputs) { in.Voltage = none }), `solar.Battery: Voltage is not given, or is the bare number 0: write its voltage, such as 3.3 V`},
		{"panel", year(func(in *YearInputs) { in.Panel = q("0 W") }), `solar.Year: Panel is 0 W; it must be above 0 W: write its power, such as 500 mW`},
		{"kept in the year", year(func(in *YearInputs) { in.Kept = q("101 %") }), `solar.Year: Kept is 101 %; it must not be above all of it, 1: write the share that comes into the battery`},
		{"load", year(func(in *YearInputs) { in.Load = q("0 W") }), `solar.Year: Load is 0 W; it must be above 0 W: write its power, such as 500 mW`},
		{"battery", year(func(in *YearInputs) { in.Battery = q("0 Wh") }), `solar.Year: Battery is 0 Wh; it must be above 0 Wh: write its energy, such as 10 Wh`},
		{"start above full", year(func(in *YearInputs) { in.Start = q("101 %") }), `solar.Year: Start is 101 %; it must not be above full, 1: write a state of charge`},
		{"start below empty", year(func(in *YearInputs) { in.Start = q("-1 %") }), `solar.Year: Start is −1 %; it must not be below 0 %: check its sign and the formula it comes from`},
		{"start empty", year(func(in *YearInputs) { in.Start = q("0 %") }), "no error"},
		{"months missing", year(func(in *YearInputs) { in.Sun = expect.Table("month [1], sun [h]\n1, 1\n11, 1") }), `solar.Year: the table: month is 12; the column goes from 1 to 11: add rows there, or say with Held() that the end values hold`},
		{"sum of the month", year(func(in *YearInputs) { in.Sun = expect.Table("month [1], sun [h]\n1, 30\n12, 30") }), `solar.Year: Sun in month 1 is 30 h; it must not be above the whole day, 24 h: write the sum of one day, not of the month`},
		{"negative sun", year(func(in *YearInputs) { in.Sun = expect.Table("month [1], sun [h]\n1, -1\n12, 3") }), `solar.Year: Sun in month 1 is −1 h; it must not be below 0 s: check its sign and the formula it comes from`},
		{"another table", year(func(in *YearInputs) { in.Sun = expect.Table("month [1], sun [W]\n1, 1\n12, 3") }), `solar.Year: Sun: column 2 of the table (sun) is in W; it must be in h, or in another unit of that kind`},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}
