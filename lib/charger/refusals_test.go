package charger

import (
	"testing"

	"ohmwright/lib/internal/expect"
)

// Every check of the package with a value that meets it, and its message.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	setting := func(change func(*SettingInputs)) error {
		in := SettingInputs{Constant: q("1000 V"), Resistor: q("2 kΩ"), Termination: q("10 %")}
		change(&in)
		return e(Setting(in))
	}
	charge := func(change func(*ChargeInputs)) error {
		in := ChargeInputs{OpenCircuit: expect.Table("charge [%], voltage [V]\n0, 3\n100, 4.2"), Resistance: q("0.2 Ω"), Capacity: q("500 mAh"),
			FullVoltage: q("4.2 V"), Current: q("250 mA"), Termination: q("25 mA")}
		change(&in)
		return e(Charge(in))
	}
	divider := func(cold, hot, coldShare, hotShare string) error {
		return e(WindowDivider(WindowDividerInputs{Cold: q(cold), Hot: q(hot), ColdShare: q(coldShare), HotShare: q(hotShare)}))
	}
	window := func(change func(*WindowInputs)) error {
		in := WindowInputs{Upper: q("10 kΩ"), ColdShare: q("70 %"), HotShare: q("35 %"), Thermistor: expect.Table("cell [°C], R [kΩ]\n0, 30\n50, 4")}
		change(&in)
		return e(Window(in))
	}
	heat := func(change func(*HeatInputs)) error {
		in := HeatInputs{Input: q("5 V"), Battery: q("3.7 V"), Current: q("0.8 A"), Ambient: q("25 °C"), Resistance: q("150 K/W"), Regulation: q("120 °C")}
		change(&in)
		return e(Heat(in))
	}
	switching := func(input, battery, current, efficiency string) error {
		return e(Switching(SwitchingInputs{Input: q(input), Battery: q(battery), Current: q(current), Efficiency: q(efficiency)}))
	}
	sharing := func(limit, load, charge, battery string) error {
		return e(Sharing(SharingInputs{Limit: q(limit), Load: q(load), Charge: q(charge), Battery: q(battery)}))
	}
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"constant", setting(func(in *SettingInputs) { in.Constant = q("0 V") }), `charger.Setting: Constant is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},
		{"resistor", setting(func(in *SettingInputs) { in.Resistor = q("0 Ω") }), `charger.Setting: Resistor is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"precharge above", setting(func(in *SettingInputs) { in.Precharge = q("101 %") }), `charger.Setting: Precharge is 101 %; it must not be above all of the current, 1: write it as a share of the charge current`},
		{"precharge below", setting(func(in *SettingInputs) { in.Precharge = q("-1 %") }), `charger.Setting: Precharge is −1 %; it must not be below 0 %: check its sign and the formula it comes from`},
		{"termination above", setting(func(in *SettingInputs) { in.Termination = q("101 %") }), `charger.Setting: Termination is 101 %; it must not be above all of the current, 1: write it as a share of the charge current`},
		{"termination of all", setting(func(in *SettingInputs) { in.Termination = q("100 %") }), "no error"},
		{"most", setting(func(in *SettingInputs) { in.Most = q("0 A") }), `charger.Setting: Most is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"no constant", e(Resistor(none, q("1 A"))), `charger.Resistor: constant is not given, or is the bare number 0: write its voltage, such as 3.3 V`},
		{"no current", e(Resistor(q("1000 V"), q("0 A"))), `charger.Resistor: current is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"timer", e(Timer(q("0 h"), q("1 h"))), `charger.Timer: timer is 0 h; it must be above 0 s: write its time, such as 10 µs`},
		{"time of the charge", e(Timer(q("1 h"), q("0 h"))), `charger.Timer: charge is 0 h; it must be above 0 s: write its time, such as 10 µs`},

		{"no table", charge(func(in *ChargeInputs) { in.OpenCircuit = expect.Table("cell [°C], voltage [V]\n0, 3\n100, 4") }), `charger.Charge: OpenCircuit: column 1 of the table (cell) is in °C; it must be in %, or in another unit of that kind`},
		{"falling table", charge(func(in *ChargeInputs) { in.OpenCircuit = expect.Table("used [%], voltage [V]\n0, 4.2\n100, 3") }), `charger.Charge: the voltage of OpenCircuit at the highest state of charge is 3 V; it must be above that at the lowest, 4.2 V: write the state of charge, which is 100 % when full`},
		{"resistance", charge(func(in *ChargeInputs) { in.Resistance = q("0 Ω") }), `charger.Charge: Resistance is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"capacity", charge(func(in *ChargeInputs) { in.Capacity = q("0 Ah") }), `charger.Charge: Capacity is 0 Ah; it must be above 0 Ah: write its capacity, such as 500 mAh`},
		{"start below empty", charge(func(in *ChargeInputs) { in.Start = q("-1 %") }), `charger.Charge: Start is −1 %; it must not be below 0 %: check its sign and the formula it comes from`},
		{"start above full", charge(func(in *ChargeInputs) { in.Start = q("101 %") }), `charger.Charge: the table: charge is 101 %; the column goes from 0 % to 100 %: add rows there, or say with Held() that the end values hold`},
		{"full already", charge(func(in *ChargeInputs) { in.Start = q("100 %") }), `charger.Charge: the state of charge at which the charge ends is 100 %; it must be above Start, 100 %: the battery is full already; raise FullVoltage, or lower Termination or Start`},
		{"full voltage", charge(func(in *ChargeInputs) { in.FullVoltage = q("4.3 V") }), `charger.Charge: FullVoltage less Termination · Resistance is 4.295 V; it must not be above the highest voltage of OpenCircuit, 4.2 V: the current would not fall to Termination; add rows to the table, or lower FullVoltage`},
		{"current", charge(func(in *ChargeInputs) { in.Current = q("0 A") }), `charger.Charge: Current is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"termination zero", charge(func(in *ChargeInputs) { in.Termination = q("0 A") }), `charger.Charge: Termination is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"termination at the current", charge(func(in *ChargeInputs) { in.Termination = q("250 mA") }), `charger.Charge: Termination is 250 mA; it must be below Current, 250 mA: write a tenth of the charge current, or what the cell's data sheet has`},
		{"precharge without a threshold", charge(func(in *ChargeInputs) { in.Precharge = q("25 mA") }), `charger.Charge: Threshold is not given, or is the bare number 0: write its voltage, such as 3.3 V`},
		{"precharge above the current", charge(func(in *ChargeInputs) { in.Precharge, in.Threshold = q("251 mA"), q("3 V") }), `charger.Charge: Precharge is 251 mA; it must not be above Current, 250 mA: an empty cell gets less, not more`},
		{"precharge at the current", charge(func(in *ChargeInputs) { in.Precharge, in.Threshold = q("250 mA"), q("3 V") }), "no error"},

		{"cold", divider("0 Ω", "5 kΩ", "70 %", "35 %"), `charger.WindowDivider: Cold is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"hot", divider("27 kΩ", "0 Ω", "70 %", "35 %"), `charger.WindowDivider: Hot is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"exchanged", divider("5 kΩ", "27 kΩ", "70 %", "35 %"), `charger.WindowDivider: Cold is 5 kΩ; it must be above Hot, 27 kΩ: the resistance of such a thermistor falls with temperature`},
		{"cold share above", divider("27 kΩ", "5 kΩ", "100 %", "35 %"), `charger.WindowDivider: ColdShare is 100 %; it must be below all of the reference, 1: write the threshold as a share of the reference`},
		{"hot share zero", divider("27 kΩ", "5 kΩ", "70 %", "0 %"), `charger.WindowDivider: HotShare is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"shares exchanged", divider("27 kΩ", "5 kΩ", "35 %", "70 %"), `charger.WindowDivider: ColdShare is 35 %; it must be above HotShare, 70 %: the pin's voltage falls as the thermistor warms`},
		{"narrow window", divider("8 kΩ", "5 kΩ", "70 %", "35 %"), `charger.WindowDivider: the resistance needed below the pin when cold is 44.44 kΩ; it must be below Cold, 8 kΩ: nothing in parallel makes it larger: widen the window, or take a thermistor with a larger B`},
		{"upper", window(func(in *WindowInputs) { in.Upper = q("0 Ω") }), `charger.Window: Upper is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"parallel too small", window(func(in *WindowInputs) { in.Parallel = q("20 kΩ") }), `charger.Window: Parallel is 20 kΩ; it must be above the resistance needed below the pin when cold, 23.33 kΩ: the pin never gets so high: raise Parallel or lower Upper`},
		{"parallel zero", window(func(in *WindowInputs) { in.Parallel = q("0 Ω") }), `charger.Window: Parallel is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ`},
		{"wide window", window(func(in *WindowInputs) { in.ColdShare = q("80 %") }), `charger.Window: the table: R is 40 kΩ; the column goes from 4 kΩ to 30 kΩ: add rows there, or say with Held() that the end values hold`},
		{"window with equal shares", window(func(in *WindowInputs) { in.ColdShare = q("35 %") }), `charger.Window: ColdShare is 35 %; it must be above HotShare, 35 %: the pin's voltage falls as the thermistor warms`},
		{"another thermistor", window(func(in *WindowInputs) { in.Thermistor = expect.Table("cell [°C], U [V]\n0, 3\n50, 4") }), `charger.Window: Thermistor: column 2 of the table (U) is in V; it must be in Ω, or in another unit of that kind`},

		{"input at the battery", heat(func(in *HeatInputs) { in.Input = q("3.7 V") }), `charger.Heat: Input is 3.7 V; it must be above Battery, 3.7 V: raise the input: a linear charger cannot charge to more than it is fed with`},
		{"no battery", heat(func(in *HeatInputs) { in.Battery = none }), `charger.Heat: Battery is not given, or is the bare number 0: write its voltage, such as 3.3 V`},
		{"no charge", heat(func(in *HeatInputs) { in.Current = q("0 A") }), `charger.Heat: Current is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"ambient as a difference", heat(func(in *HeatInputs) { in.Ambient = q("25 K") }), `charger.Heat: Ambient is 25 K; it must be a temperature on the scale, not a difference: write it in °C, such as 25 °C`},
		{"thermal resistance", heat(func(in *HeatInputs) { in.Resistance = q("0 K/W") }), `charger.Heat: Resistance is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W`},
		{"regulation", heat(func(in *HeatInputs) { in.Regulation = none }), `charger.Heat: Regulation is not given, or is the bare number 0: write a temperature, such as 25 °C`},
		{"switching input", switching("0 V", "4 V", "2 A", "90 %"), `charger.Switching: Input is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},
		{"switching battery", switching("12 V", "0 V", "2 A", "90 %"), `charger.Switching: Battery is 0 V; it must be above 0 V: write its voltage, such as 3.3 V`},
		{"switching current", switching("12 V", "4 V", "0 A", "90 %"), `charger.Switching: Current is 0 A; it must be above 0 A: write its current, such as 1 mA`},
		{"efficiency zero", switching("12 V", "4 V", "2 A", "0 %"), `charger.Switching: Efficiency is 0 %; it must be above 0 %: write its share, such as 60 %`},
		{"efficiency above", switching("12 V", "4 V", "2 A", "101 %"), `charger.Switching: Efficiency is 101 %; it must not be above all of the power, 1: write it from 0 % to 100 %`},
		{"efficiency of all", switching("12 V", "4 V", "2 A", "100 %"), "no error"},
		{"limit", sharing("-1 mA", "1 A", "1 A", "1 A"), `charger.Sharing: Limit is −1 mA; it must not be below 0 A: check its sign and the formula it comes from`},
		{"shared load", sharing("1 A", "-1 mA", "1 A", "1 A"), `charger.Sharing: Load is −1 mA; it must not be below 0 A: check its sign and the formula it comes from`},
		{"shared charge", sharing("1 A", "1 A", "-1 mA", "1 A"), `charger.Sharing: Charge is −1 mA; it must not be below 0 A: check its sign and the formula it comes from`},
		{"shared battery", sharing("1 A", "1 A", "1 A", "-1 mA"), `charger.Sharing: Battery is −1 mA; it must not be below 0 A: check its sign and the formula it comes from`},
		{"unplugged", sharing("0 A", "0 A", "0 A", "0 A"), "no error"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}
