package battery

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

// Every check of the package with a value that meets it, and its message.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	modes := func(period string, list ...Mode) error {
		in := ModesInputs{Modes: list}
		if period != "" {
			in.Period = q(period)
		}
		return e(Modes(in))
	}
	cold := expect.Table("cell [°C], left [%]\n-10, 60\n30, 100")
	capacity := func(change func(*CapacityInputs)) error {
		in := CapacityInputs{Rated: q("500 mAh"), Temperature: q("10 °C"), ByTemperature: cold, Aged: q("80 %")}
		change(&in)
		return e(Capacity(in))
	}
	run := func(change func(*RunTimeInputs)) error {
		in := RunTimeInputs{Capacity: q("500 mAh"), Current: q("200 µA"), SelfDischarge: q("2 %"), Per: q("30 d")}
		change(&in)
		return e(RunTime(in))
	}
	storage := func(change func(*StorageInputs)) error {
		in := StorageInputs{Capacity: q("500 mAh"), SelfDischarge: q("2 %"), Per: q("30 d"), Time: q("300 d")}
		change(&in)
		return e(Storage(in))
	}
	peukert := func(change func(*PeukertInputs)) error {
		in := PeukertInputs{Rated: q("100 Ah"), Hours: q("20 h"), Exponent: q("1.2"), Load: q("10 A")}
		change(&in)
		return e(Peukert(in))
	}
	headroom := func(change func(*HeadroomInputs)) error {
		in := HeadroomInputs{OpenCircuit: expect.Table("charge [%], voltage [V]\n0, 3\n100, 4"), Resistance: q("1 Ω"), Load: q("0.1 A"), Output: q("3 V"), Dropout: q("0 V")}
		change(&in)
		return e(Headroom(in))
	}
	pulse := func(change func(*PulseInputs)) error {
		in := PulseInputs{OpenCircuit: q("3 V"), Resistance: q("20 Ω"), Current: q("10 mA"), LeastVoltage: q("2 V"), Capacitance: q("100 µF"), ESR: q("0 Ω"), Duration: q("5 ms"), Period: q("1 s")}
		change(&in)
		return e(Pulse(in))
	}
	pack := func(change func(*CellInputs), series, parallel int) error {
		in := CellInputs{Voltage: q("3.6 V"), Capacity: q("2.5 Ah"), Resistance: q("40 mΩ")}
		change(&in)
		return e(Pack(in, series, parallel))
	}
	sleep := Mode{Name: "sleep", Current: q("6 µA")}
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"no mode", modes(""), `battery.Modes: Modes is empty: write at least one mode, such as sleep`},
		{"period of zero", modes("0 s", sleep), `battery.Modes: Period is 0 s; it must be above 0 s: write its time, such as 10 µs`},
		{"current and power", modes("1 min", Mode{Name: "send", Current: q("1 mA"), Power: q("3 mW")}), `battery.Modes: send has a Current, 1 mA, and a Power, 3 mW: write one of them`},
		{"time and share", modes("1 min", Mode{Name: "send", Current: q("1 mA"), Time: q("1 s"), Share: q("1 %")}), `battery.Modes: send has a Time, 1 s, and a Share, 1 %: write one of them`},
		{"power without a voltage", modes("1 min", Mode{Name: "send", Power: q("3 mW"), Time: q("1 s")}, sleep), `battery.Modes: Voltage is not given, or is the bare number 0: write its voltage, such as 3.3 V`},
		{"negative power", modes("1 min", Mode{Name: "send", Power: q("-3 mW"), Time: q("1 s")}, sleep), `battery.Modes: Power of send is −3 mW; it must not be below 0 W: check its sign and the formula it comes from`},
		{"negative current", modes("1 min", Mode{Current: q("-1 mA"), Time: q("1 s")}, sleep), `battery.Modes: Current of mode 1 is −1 mA; it must not be below 0 A: check its sign and the formula it comes from`},
		{"negative share", modes("1 min", Mode{Name: "send", Current: q("1 mA"), Share: q("-1 %")}, sleep), `battery.Modes: Share of send is −1 %; it must not be below 0 %: check its sign and the formula it comes from`},
		{"time of zero", modes("1 min", Mode{Name: "send", Current: q("1 mA"), Time: q("0 s")}, sleep), `battery.Modes: Time of send is 0 s; it must be above 0 s: write its time, such as 10 µs`},
		{"two rests", modes("1 min", Mode{Name: "idle", Current: q("1 mA")}, sleep), `battery.Modes: idle and sleep have neither Time nor Share: only one can have the rest of the time`},
		{"no period", modes("", Mode{Name: "send", Current: q("1 mA"), Time: q("1 s")}, sleep), `battery.Modes: Period is not given, and not every mode has a Time: write the period in which everything happens once, such as 10 min`},
		{"too much time", modes("1 s", Mode{Name: "send", Current: q("1 mA"), Time: q("1.1 s")}, sleep), `battery.Modes: the share of all modes together is 1.1; it must not be above the whole time, 1: shorten a mode, or lengthen the period`},
		{"time left over", modes("1 s", Mode{Name: "send", Current: q("1 mA"), Time: q("0.9 s")}), `battery.Modes: the share of all modes together is 0.9; it must not be below the whole time, 1: add a mode for the rest of it, with neither Time nor Share`},
		{"all of the time", modes("1 s", Mode{Name: "send", Current: q("1 mA"), Time: q("1 s")}), "no error"},

		{"rated zero", capacity(func(in *CapacityInputs) { in.Rated = q("0 mAh") }), `battery.Capacity: Rated is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh`},
		{"aged above", capacity(func(in *CapacityInputs) { in.Aged = q("101 %") }), `battery.Capacity: Aged is 101 %; it must not be above all of it, 1: write what is left, not what is lost`},
		{"not aged", capacity(func(in *CapacityInputs) { in.Aged = q("100 %") }), "no error"},
		{"aged zero", capacity(func(in *CapacityInputs) { in.Aged = q("0 %") }), `battery.Capacity: Aged is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"too cold", capacity(func(in *CapacityInputs) { in.Temperature = q("-10.5 °C") }), `battery.Capacity: the table: cell is −10.5 °C; the column goes from −10 °C to 30 °C: add rows there, or say with Held() that the end values hold`},
		{"at the first row", capacity(func(in *CapacityInputs) { in.Temperature = q("-10 °C") }), "no error"},
		{"a wrong table", capacity(func(in *CapacityInputs) { in.ByRate = cold }), `battery.Capacity: ByRate: column 1 of the table (cell) is in °C; it must be in A, or in another unit of that kind`},
		{"a negative share", capacity(func(in *CapacityInputs) {
			in.ByCycles, in.Cycles = expect.Table("cycles [1], left [%]\n0, 100\n10, -10"), q("10")
		}), `battery.Capacity: the share in ByCycles is −10 %; it must not be below 0 %: check its sign and the formula it comes from`},

		{"no capacity", run(func(in *RunTimeInputs) { in.Capacity = none }), `battery.RunTime: Capacity is not given, or is the bare number 0: write its capacity, such as 500 mAh`},
		{"usable above", run(func(in *RunTimeInputs) { in.Usable = q("101 %") }), `battery.RunTime: Usable is 101 %; it must not be above all of it, 1: write the share down to the cut-off`},
		{"usable zero", run(func(in *RunTimeInputs) { in.Usable = q("0 %") }), `battery.RunTime: Usable is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"all usable", run(func(in *RunTimeInputs) { in.Usable = q("100 %") }), "no error"},
		{"no current", run(func(in *RunTimeInputs) { in.Current = q("0 A") }), `battery.RunTime: Current is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"shelf zero", run(func(in *RunTimeInputs) { in.Shelf = q("0 d") }), `battery.RunTime: Shelf is 0 d; it must be above 0 s: write its time, such as 10 µs`},
		{"no time of the loss", run(func(in *RunTimeInputs) { in.Per = none }), `battery.RunTime: Per is not given, or is the bare number 0: write its time, such as 10 µs`},
		{"all lost", run(func(in *RunTimeInputs) { in.SelfDischarge = q("100 %") }), `battery.RunTime: SelfDischarge is 100 %; it must be below all of it, 1: write the share lost in Per, such as 2 % per 30 d`},
		{"negative loss", run(func(in *RunTimeInputs) { in.SelfDischarge = q("-1 %") }), `battery.RunTime: SelfDischarge is −1 %; it must not be below 0 %: check its sign and the formula it comes from`},
		{"nothing lost", run(func(in *RunTimeInputs) { in.SelfDischarge = q("0 %") }), "no error"},

		{"stored capacity", storage(func(in *StorageInputs) { in.Capacity = q("-1 Ah") }), `battery.Storage: Capacity is −1 Ah; it must be above 0 Ah: check its sign and the formula it comes from`},
		{"negative time", storage(func(in *StorageInputs) { in.Time = q("-1 d") }), `battery.Storage: Time is −1 d; it must not be below 0 s: check its sign and the formula it comes from`},
		{"no time", storage(func(in *StorageInputs) { in.Time = q("0 d") }), "no error"},
		{"all lost on the shelf", storage(func(in *StorageInputs) { in.SelfDischarge = q("100 %") }), `battery.Storage: SelfDischarge is 100 %; it must be below all of it, 1: write the share lost in Per, such as 2 % per 30 d`},
		{"per zero", storage(func(in *StorageInputs) { in.Per = q("0 d") }), `battery.Storage: Per is 0 d; it must be above 0 s: write its time, such as 10 µs`},

		{"rated", peukert(func(in *PeukertInputs) { in.Rated = q("0 Ah") }), `battery.Peukert: Rated is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh`},
		{"hours", peukert(func(in *PeukertInputs) { in.Hours = q("0 h") }), `battery.Peukert: Hours is 0 h; it must be above 0 s: write its time, such as 10 µs`},
		{"exponent below", peukert(func(in *PeukertInputs) { in.Exponent = q("0.99") }), `battery.Peukert: exponent is 0.99; it must not be below that of a battery without the effect, 1: take it from the data sheet, or from two capacities with PeukertExponent`},
		{"exponent of one", peukert(func(in *PeukertInputs) { in.Exponent = q("1") }), "no error"},
		{"exponent above two", peukert(func(in *PeukertInputs) { in.Exponent = q("2.01") }), `battery.Peukert: exponent is 2.01; it must not be above that of the worst batteries, 2: take it from the data sheet, or from two capacities with PeukertExponent`},
		{"exponent of two", peukert(func(in *PeukertInputs) { in.Exponent = q("2") }), "no error"},
		{"load", peukert(func(in *PeukertInputs) { in.Load = q("0 A") }), `battery.Peukert: Load is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"capacity at one ampere", e(PeukertAtOneAmpere(q("0 Ah"), q("1.2"), q("5 A"))), `battery.PeukertAtOneAmpere: capacity is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh`},
		{"exponent at one ampere", e(PeukertAtOneAmpere(q("100 Ah"), q("0.9"), q("5 A"))), `battery.PeukertAtOneAmpere: exponent is 0.9; it must not be below that of a battery without the effect, 1: take it from the data sheet, or from two capacities with PeukertExponent`},
		{"load at one ampere", e(PeukertAtOneAmpere(q("100 Ah"), q("1.2"), q("0 A"))), `battery.PeukertAtOneAmpere: load is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"equal times", e(PeukertExponent(q("75 Ah"), q("20 h"), q("100 Ah"), q("20 h"))), `battery.PeukertExponent: time2 is 20 h; it must be above time1, 20 h: write the shorter time first`},
		{"exponent of more at speed", e(PeukertExponent(q("110 Ah"), q("5 h"), q("100 Ah"), q("20 h"))), `battery.PeukertExponent: exponent is 0.9357; it must not be below that of a battery without the effect, 1: take it from the data sheet, or from two capacities with PeukertExponent`},
		{"exponent of nothing", e(PeukertExponent(q("0 Ah"), q("5 h"), q("100 Ah"), q("20 h"))), `battery.PeukertExponent: capacity1 is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh`},

		{"no curve", headroom(func(in *HeadroomInputs) { in.OpenCircuit = cold }), `battery.Headroom: OpenCircuit: column 1 of the table (cell) is in °C; it must be in %, or in another unit of that kind`},
		{"falling curve", headroom(func(in *HeadroomInputs) { in.OpenCircuit = expect.Table("used [%], voltage [V]\n0, 4\n100, 3") }), `battery.Headroom: the voltage of OpenCircuit at the highest state of charge is 3 V; it must be above that at the lowest, 4 V: write the state of charge, which is 100 % when full, and not the discharge`},
		{"two resistances", headroom(func(in *HeadroomInputs) {
			in.ResistanceBy, in.Temperature = expect.Table("cell [°C], R [Ω]\n0, 1\n20, 0.5"), q("0 °C")
		}), `battery.Headroom: Resistance is 1 Ω, but this function finds it: leave it out where ResistanceBy is given`},
		{"too hot for the table", headroom(func(in *HeadroomInputs) {
			in.Resistance, in.ResistanceBy, in.Temperature = none, expect.Table("cell [°C], R [Ω]\n0, 1\n20, 0.5"), q("21 °C")
		}), `battery.Headroom: the table: cell is 21 °C; the column goes from 0 °C to 20 °C: add rows there, or say with Held() that the end values hold`},
		{"resistance zero", headroom(func(in *HeadroomInputs) { in.Resistance = q("0 Ω") }), `battery.Headroom: Resistance is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"output zero", headroom(func(in *HeadroomInputs) { in.Output = q("0 V") }), `battery.Headroom: Output is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},
		{"negative dropout", headroom(func(in *HeadroomInputs) { in.Dropout = q("-1 mV") }), `battery.Headroom: Dropout is −1 mV; it must not be below 0 V: check its sign and the formula it comes from`},
		{"load and power", headroom(func(in *HeadroomInputs) { in.Power = q("1 W") }), `battery.Headroom: Load is 100 mA, but this function finds it: write either Load or Power`},
		{"negative load", headroom(func(in *HeadroomInputs) { in.Load = q("-1 mA") }), `battery.Headroom: Load is −1 mA; it must not be below 0 A: check its sign and the formula it comes from`},
		{"no load at all", headroom(func(in *HeadroomInputs) { in.Load = q("0 A") }), "no error"},
		{"negative power at the end", headroom(func(in *HeadroomInputs) { in.Load, in.Power = none, q("-1 W") }), `battery.Headroom: Power is −1 W; it must not be below 0 W: check its sign and the formula it comes from`},
		{"least input zero", headroom(func(in *HeadroomInputs) { in.LeastInput = q("0 V") }), `battery.Headroom: LeastInput is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},

		{"open circuit", pulse(func(in *PulseInputs) { in.OpenCircuit = q("0 V") }), `battery.Pulse: OpenCircuit is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},
		{"resistance", pulse(func(in *PulseInputs) { in.Resistance = q("0 Ω") }), `battery.Pulse: Resistance is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"current", pulse(func(in *PulseInputs) { in.Current = q("0 A") }), `battery.Pulse: Current is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"least voltage", pulse(func(in *PulseInputs) { in.LeastVoltage = none }), `battery.Pulse: LeastVoltage is not given, or is the bare number 0: write its voltage, such as 3.3 V`},
		{"capacitance", pulse(func(in *PulseInputs) { in.Capacitance = q("0 F") }), `battery.Pulse: Capacitance is 0 F; it must be above 0 F: write its capacitance, such as 100 nF`},
		{"negative ESR", pulse(func(in *PulseInputs) { in.ESR = q("-1 Ω") }), `battery.Pulse: ESR is −1 Ω; it must not be below 0 Ω: check its sign and the formula it comes from`},
		{"duration", pulse(func(in *PulseInputs) { in.Duration = q("0 s") }), `battery.Pulse: Duration is 0 s; it must be above 0 s: write its time, such as 10 µs`},
		{"period as short as the pulse", pulse(func(in *PulseInputs) { in.Period = q("5 ms") }), `battery.Pulse: Period is 5 ms; it must be above Duration, 5 ms: write the time from the start of a pulse to that of the next`},
		{"period above the pulse", pulse(func(in *PulseInputs) { in.Period = q("5.1 ms") }), "no error"},

		{"cell voltage", pack(func(in *CellInputs) { in.Voltage = q("0 V") }, 1, 1), `battery.Pack: Voltage is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},
		{"cell capacity", pack(func(in *CellInputs) { in.Capacity = q("0 Ah") }, 1, 1), `battery.Pack: Capacity is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh`},
		{"cell resistance", pack(func(in *CellInputs) { in.Resistance = units.Number(40) }, 1, 1), `battery.Pack: Resistance is 40; it must be a resistance: write it in Ω, such as 10 kΩ`},
		{"none in series", pack(func(in *CellInputs) {}, 0, 1), `battery.Pack: series is 0; it must be from 1 to 1000: write how many cells follow each other`},
		{"too many side by side", pack(func(in *CellInputs) {}, 1, 1001), `battery.Pack: parallel is 1001; it must be from 1 to 1000: write how many strings are side by side`},
		{"as many as there may be", pack(func(in *CellInputs) {}, 1000, 1000), "no error"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}
