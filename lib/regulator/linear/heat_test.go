package linear

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Source: MCP1700 data sheet DS20001826C p. 14: 3.2 V at most, 1.8 V less 3 %
// (1.746 V), 150 mA: 218.1 mW; DS21826B p. 13: 230 K/W, from 40 °C.
func TestLossOfAPublishedExample(t *testing.T) {
	t.Parallel()
	l := expect.Result[LossResult](t)(Loss(LossInputs{Input: q("3.2 V"), Output: q("1.746 V"), Load: q("150 mA")}))
	expect.Within(t, "Loss", l.Loss, "218.1 mW", "1e-9 W")
	expect.Within(t, "GroundLoss", l.GroundLoss, "0 W", "0 W")
	h := expect.Result[HeatResult](t)(Heat(HeatInputs{
		Input: q("3.2 V"), Output: q("1.746 V"), Load: q("150 mA"), Ambient: q("40 °C"), Resistance: q("230 K/W"), Limit: q("125 °C"),
	}))
	expect.Within(t, "Loss", h.Loss, "218.1 mW", "1e-9 W")
	expect.Within(t, "Rise", h.Rise, "50.163 K", "1e-9 K") // 0.2181 · 230; published 50.2 K
	expect.Within(t, "Junction", h.Junction, "90.163 °C", "1e-9 K")
	expect.Within(t, "Margin", h.Margin, "34.837 K", "1e-9 K")
	expect.Within(t, "LargestAmbient", h.LargestAmbient, "74.837 °C", "1e-9 K") // 125 − 50.163
}

// By hand, each step: 1.7 V · 60 mA = 102 mW, 5 V · 90 µA = 0.45 mW; in 5 V ·
// 60.09 mA = 300.45 mW, out 198 mW: 198/300.45 = 65.9011 %; 0.09/60.09 =
// 0.149775 %; 3.3/5 = 66 %.
func TestLoss(t *testing.T) {
	t.Parallel()
	l := expect.Result[LossResult](t)(Loss(LossInputs{Input: q("5 V"), Output: q("3.3 V"), Load: q("60 mA"), Ground: q("90 µA")}))
	expect.Within(t, "Drop", l.Drop, "1.7 V", "1e-12 V")
	expect.Within(t, "PassLoss", l.PassLoss, "102 mW", "1e-12 W")
	expect.Within(t, "GroundLoss", l.GroundLoss, "0.45 mW", "1e-12 W")
	expect.Within(t, "Loss", l.Loss, "102.45 mW", "1e-12 W")
	expect.Within(t, "InputCurrent", l.InputCurrent, "60.09 mA", "1e-12 A")
	expect.Within(t, "InputPower", l.InputPower, "300.45 mW", "1e-12 W")
	expect.Within(t, "OutputPower", l.OutputPower, "198 mW", "1e-12 W")
	expect.Within(t, "Efficiency", l.Efficiency, "0.659011483", "1e-9")
	expect.Within(t, "GroundShare", l.GroundShare, "0.00149775337", "1e-11")
	expect.Within(t, "MostEfficiency", l.MostEfficiency, "0.66", "1e-12")
	// Asleep the part itself takes most: 90 µA of 100 µA.
	asleep := expect.Result[LossResult](t)(Loss(LossInputs{Input: q("5 V"), Output: q("3.3 V"), Load: q("10 µA"), Ground: q("90 µA")}))
	expect.Within(t, "GroundShare asleep", asleep.GroundShare, "0.9", "1e-12")
	expect.Within(t, "Efficiency asleep", asleep.Efficiency, "0.066", "1e-12") // 33 µW of 500 µW
	// Without load nothing comes out, without a drop nothing is lost in it.
	idle := expect.Result[LossResult](t)(Loss(LossInputs{Input: q("5 V"), Output: q("3.3 V"), Load: q("0 A"), Ground: q("90 µA")}))
	expect.Within(t, "Efficiency without load", idle.Efficiency, "0", "0")
	through := expect.Result[LossResult](t)(Loss(LossInputs{Input: q("3.3 V"), Output: q("3.3 V"), Load: q("1 A")}))
	expect.Within(t, "Efficiency without drop", through.Efficiency, "1", "0")
}

// By hand: from 90 µA to 1.2 mA over 500 mA: half way 645 µA.
func TestGroundCurrent(t *testing.T) {
	t.Parallel()
	curve := expect.Table("load [mA], ground [mA]\n0, 0.09\n500, 1.2")
	for load, want := range map[string]string{"0 A": "90 µA", "250 mA": "645 µA", "500 mA": "1.2 mA"} {
		expect.Within(t, "at "+load, expect.Result[units.Quantity](t)(GroundCurrent(curve, q(load))), want, "1e-12 A")
	}
}

// Source: Nisshinbo/RICOH FAQ 029: 125 °C, 40 K/W: 1.0 W at 85 °C, 2.5 W at
// 25 °C; with 1.5 A a drop of 2.5/1.5 V (printed 1.68 V) is allowed. The other
// way round: with that drop, above 1.2 V, 1.5 A is the largest load.
func TestLargestLoadOfAPublishedExample(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ ambient, loss, load string }{
		{"85 °C", "1 W", "600 mA"}, // 1/(5/3)
		{"25 °C", "2.5 W", "1.5 A"},
	} {
		h := expect.Result[HeatResult](t)(Heat(HeatInputs{
			Input: q("1.2 V").Add(q("5 V").Div(units.Number(3))), Output: q("1.2 V"), Load: q("1 mA"),
			Ambient: q(test.ambient), Resistance: q("40 K/W"), Limit: q("125 °C"),
		}))
		expect.Within(t, "AllowedLoss at "+test.ambient, h.AllowedLoss, test.loss, "1e-12 W")
		expect.Within(t, "LargestLoad at "+test.ambient, h.LargestLoad, test.load, "1e-12 A")
	}
}

// Sources: ROHM technical note BAxxJC5 p. 5: 62.5 K/W, 2 W at 25 °C (so 150
// °C), 6.0 V to 5.0 V at 85 °C with 30 mA of its own: 1.040 W, 860 mA. ROHM
// data sheet BD7xxL5FP-C p. 13: 0.953 W from 125 °C to 150 °C, 13.5 V to 3.3 V
// and to 5.0 V with 6 µA: 93 mA and 112 mA.
func TestLargestLoadOfMorePublishedExamples(t *testing.T) {
	t.Parallel()
	for _, test := range []struct{ input, output, ground, ambient, span, power, load, within string }{
		{"6 V", "5 V", "30 mA", "85 °C", "65 K", "1.04 W", "860 mA", "1e-9 A"},
		{"13.5 V", "3.3 V", "6 µA", "125 °C", "25 K", "0.953 W", "93 mA", "0.5 mA"},
		{"13.5 V", "5 V", "6 µA", "125 °C", "25 K", "0.953 W", "112 mA", "0.5 mA"},
	} {
		h := expect.Result[HeatResult](t)(Heat(HeatInputs{
			Input: q(test.input), Output: q(test.output), Load: q("1 mA"), Ground: q(test.ground),
			Ambient: q(test.ambient), Resistance: q(test.span).Div(q(test.power)), Limit: q("150 °C"),
		}))
		expect.Within(t, "AllowedLoss", h.AllowedLoss, test.power, "1e-12 W")
		expect.Within(t, "LargestLoad", h.LargestLoad, test.load, test.within)
	}
}

// Sources: ROHM's introduction "Efficiency of linear regulators": from 5 V to
// 3.3 V 64 %, from 3.6 V with the same currents 89 %: the part takes 3 %, which
// the first figure fixes (64/66 of the input current comes out). Nisshinbo FAQ
// 10079: 4 V, 3 V, 300 mA and 5 mA (inputs read, the result is a picture): 900
// mW of 1.22 W, 73.7705 %.
func TestEfficiencyOfPublishedExamples(t *testing.T) {
	t.Parallel()
	load, ground := q("64 mA"), q("2 mA")
	for input, want := range map[string]string{"5 V": "0.64", "3.6 V": "0.89"} {
		l := expect.Result[LossResult](t)(Loss(LossInputs{Input: q(input), Output: q("3.3 V"), Load: load, Ground: ground}))
		expect.Within(t, "Efficiency from "+input, l.Efficiency, want, "0.005")
		expect.Within(t, "GroundShare from "+input, l.GroundShare, "0.030303", "1e-6")
	}
	l := expect.Result[LossResult](t)(Loss(LossInputs{Input: q("4 V"), Output: q("3 V"), Load: q("300 mA"), Ground: q("5 mA")}))
	expect.Within(t, "Efficiency", l.Efficiency, "0.737705", "1e-6")
	expect.Within(t, "Loss", l.Loss, "320 mW", "1e-12 W") // 1 V · 300 mA + 4 V · 5 mA
}

// Inputs from Toshiba's introduction to low-drop regulators, chapter 4.2 (the
// result is a picture there): 600 mW at 25 °C for 150 °C, so 208.33 K/W;
// 1.8 V · 100 mA from 40 °C: 37.5 K, 77.5 °C. By hand: 110 K/208.33 K/W =
// 528 mW over 1.8 V: 293.3 mA.
func TestHeat(t *testing.T) {
	t.Parallel()
	in := HeatInputs{
		Input: q("3.6 V"), Output: q("1.8 V"), Load: q("100 mA"), Ambient: q("40 °C"),
		Resistance: q("125 K").Div(q("600 mW")), Limit: q("150 °C"),
	}
	h := expect.Result[HeatResult](t)(Heat(in))
	expect.Within(t, "Junction", h.Junction, "77.5 °C", "1e-9 K")
	expect.Within(t, "LargestLoad", h.LargestLoad, "293.333333 mA", "1e-9 A")
	// A rating below that decides, one above it does not.
	in.Rated = q("200 mA")
	expect.Within(t, "LargestLoad, rated less", expect.Result[HeatResult](t)(Heat(in)).LargestLoad, "200 mA", "0 A")
	in.Rated = q("400 mA")
	expect.Within(t, "LargestLoad, rated more", expect.Result[HeatResult](t)(Heat(in)).LargestLoad, "293.333333 mA", "1e-9 A")
	// The ground current takes its part of the loss: (528 mW − 3.6 V · 10 mA)/1.8 V.
	in.Ground = q("10 mA")
	expect.Within(t, "LargestLoad with ground current", expect.Result[HeatResult](t)(Heat(in)).LargestLoad, "273.333333 mA", "1e-9 A")
	// Too hot is a negative margin; no air is cold enough for 2 kW.
	in.Load = q("1 A")
	hot := expect.Result[HeatResult](t)(Heat(in))
	expect.Within(t, "Margin", hot.Margin, "-272.5 K", "1e-9 K") // 1.8 W + 36 mW, 382.5 K, 422.5 °C
	in.Load = q("1 kA")
	expect.Within(t, "LargestAmbient", expect.Result[HeatResult](t)(Heat(in)).LargestAmbient, "-273.15 °C", "1e-9 K")
}

// What goes in comes out or is lost; at LargestLoad and in LargestAmbient the
// junction is at its limit; more load, more input and warmer air never make it
// cooler.
func TestPowerIsKeptAndLimitsAreMet(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		output := rapid.Float64Range(0.5, 12).Draw(t, "output")
		in := HeatInputs{
			Output: of(output, "V"), Input: of(output*rapid.Float64Range(1.01, 5).Draw(t, "ratio"), "V"),
			Load:   of(rapid.Float64Range(1e-6, 3).Draw(t, "load"), "A"),
			Ground: of(rapid.Float64Range(1e-7, 1e-4).Draw(t, "ground"), "A"), Resistance: of(rapid.Float64Range(1, 300).Draw(t, "resistance"), "K/W"),
			Ambient: q("0 °C").Add(of(rapid.Float64Range(-40, 85).Draw(t, "ambient"), "K")), Limit: q("125 °C"),
		}
		l, err := Loss(LossInputs{Input: in.Input, Output: in.Output, Load: in.Load, Ground: in.Ground})
		if err != nil {
			t.Fatal(err)
		}
		if d := l.InputPower.SI() - l.OutputPower.SI() - l.Loss.SI(); math.Abs(d) > 1e-12*l.InputPower.SI() {
			t.Fatalf("%v W is left over of %v", d, l.InputPower)
		}
		if !(0 <= l.Efficiency.SI() && l.Efficiency.SI() <= l.MostEfficiency.SI()*(1+1e-12) && l.MostEfficiency.SI() <= 1) {
			t.Fatalf("efficiency %v, at most %v", l.Efficiency, l.MostEfficiency)
		}
		h, err := Heat(in)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(h.Loss.SI()-l.Loss.SI()) > 1e-12*l.Loss.SI() {
			t.Fatalf("loss %v here, %v there", h.Loss, l.Loss)
		}
		changed := func(change func(*HeatInputs)) HeatResult {
			other := in
			change(&other)
			r, err := Heat(other)
			if err != nil {
				t.Fatal(err)
			}
			return r
		}
		full := changed(func(in *HeatInputs) { in.Load = h.LargestLoad })
		if math.Abs(full.Margin.SI()) > 1e-8 {
			t.Fatalf("at the largest load %v is left", full.Margin)
		}
		if h.LargestAmbient.SI() > 1 { // above absolute zero
			warm := changed(func(in *HeatInputs) { in.Ambient = h.LargestAmbient })
			if math.Abs(warm.Margin.SI()) > 1e-8 {
				t.Fatalf("in the warmest air %v is left", warm.Margin)
			}
		}
		for name, change := range map[string]func(*HeatInputs){
			"load":    func(in *HeatInputs) { in.Load = in.Load.Mul(units.Number(1.1)) },
			"input":   func(in *HeatInputs) { in.Input = in.Input.Mul(units.Number(1.1)) },
			"ambient": func(in *HeatInputs) { in.Ambient = in.Ambient.Add(q("1 K")) },
		} {
			if hotter := changed(change); hotter.Junction.SI() < h.Junction.SI() {
				t.Fatalf("more %s: %v after %v", name, hotter.Junction, h.Junction)
			}
		}
	})
}

// Sources: TLV766-Q1 data sheet JAJSKJ9A, its chosen resistors: 0.8 · (1 +
// 499/160) = 3.295 V, wanted 3.3 V: −5 mV, −0.151515 %. The textbook
// three-terminal regulator (1.25 V from output to adjust pin, 240 Ω, 5 kΩ,
// 50 µA): 27.541667 V; 1.25/240 + 50 µA = 5.258333 mA of the 10 mA that it
// needs (LM317 data sheet, minimum load current, from memory), so 4.741667 mA
// are missing.
func TestSetting(t *testing.T) {
	t.Parallel()
	s := expect.Result[SettingResult](t)(Setting(SettingInputs{Reference: q("0.8 V"), Upper: q("499 kΩ"), Lower: q("160 kΩ"), Wanted: q("3.3 V")}))
	expect.Within(t, "Output", s.Output, "3.295 V", "1e-12 V")
	expect.Within(t, "Error", s.Error, "-5 mV", "1e-12 V")
	expect.Within(t, "ErrorShare", s.ErrorShare, "-0.00151515152", "1e-11")
	expect.Within(t, "Current", s.Current, "5 µA", "1e-15 A")  // 0.8 V/160 kΩ
	expect.Within(t, "Power", s.Power, "16.475 µW", "1e-12 W") // 3.295 V · 5 µA
	expect.Within(t, "Missing", s.Missing, "0 A", "0 A")
	s = expect.Result[SettingResult](t)(Setting(SettingInputs{
		Reference: q("1.25 V"), Upper: q("5 kΩ"), Lower: q("240 Ω"), PinCurrent: q("50 µA"), Wanted: q("27.5 V"), LeastLoad: q("10 mA"),
	}))
	expect.Within(t, "Output", s.Output, "27.5416667 V", "1e-7 V")
	expect.Within(t, "PinShift", s.PinShift, "250 mV", "1e-12 V")
	expect.Within(t, "PinShare", s.PinShare, "0.0096", "1e-12")
	expect.Within(t, "Missing", s.Missing, "4.74166667 mA", "1e-11 A")
}

func ExampleLoss() {
	p := units.MustParse
	l, err := Loss(LossInputs{Input: p("5 V"), Output: p("3.3 V"), Load: p("60 mA"), Ground: p("90 µA")})
	fmt.Println(l.Loss, units.In(l.Efficiency, "%"), err)
	// Output: 102.5 mW 65.9 % <nil>
}

func ExampleHeat() {
	p := units.MustParse
	h, err := Heat(HeatInputs{Input: p("5 V"), Output: p("3.3 V"), Load: p("280 mA"), Ambient: p("60 °C"), Resistance: p("62 K/W"), Limit: p("125 °C")})
	fmt.Println(h.Junction, h.LargestLoad, err)
	// Output: 89.51 °C 616.7 mA <nil>
}
