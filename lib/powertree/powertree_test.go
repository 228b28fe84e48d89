package powertree

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

var q = units.MustParse

func qs(texts ...string) (list []units.Quantity) {
	for _, t := range texts {
		list = append(list, q(t))
	}
	return list
}

// board is a tree with every kind of converter.
func board() Inputs {
	return Inputs{
		Rails: []Rail{
			{Name: "logic", Voltage: q("3.3 V"), From: "bus", Converter: Converter{Kind: "linear", Quiescent: q("60 µA"), Dropout: q("300 mV")}, LimitCurrent: q("200 mA")},
			{Name: "input", Voltage: q("24 V"), LimitCurrent: q("1 A")},
			{Name: "bus", Voltage: q("5 V"), From: "input", Converter: Converter{Kind: "step-down", Efficiency: q("80 %"), Quiescent: q("25 µA"), LeastInput: q("6 V"), MostInput: q("36 V")}, LimitCurrent: q("1.5 A")},
			{Name: "valve", Voltage: q("12 V"), From: "bus", Converter: Converter{Kind: "step-up", Efficiencies: expect.Table("load [A] log, efficiency [%]\n1m, 50\n10m, 80\n1, 90")}},
			{Name: "minus", Voltage: q("-5 V"), From: "bus", Converter: Converter{Kind: "inverting", Losses: expect.Table("load [mA], loss [mW]\n0, 1\n100, 101")}},
		},
		Modes: []Mode{{Name: "idle"}, {Name: "water", Time: q("6 h")}},
		Loads: []Load{
			{Name: "controller", Rail: "logic", Currents: qs("40 µA", "100 mA")},
			{Name: "coil", Rail: "valve", Currents: qs("0 A", "100 mA")},
			{Name: "amplifier", Rail: "minus", Currents: qs("0 A", "50 mA")},
			{Name: "lamp", Rail: "bus", Currents: qs("0 A", "20 mA")},
		},
	}
}

// The arithmetic of board, written out. Water:
//
//	logic  100 mA · 3.3 V; in 100.06 mA; heat 1.7 V · 0.1 A + 5 V · 60 µA = 0.1703 W
//	valve  1.2 W at 85 % (halfway from 10 mA to 1 A on the log axis); in 1.2/0.85/5 A = 24/85 A
//	minus  0.25 W + 51 mW = 0.301 W; in 60.2 mA
//	bus    20 + 100.06 + 282.3529… + 60.2 mA = 462.6129412 mA, 2.313064706 W;
//	       in 2.313064706/0.8/24 A + 25 µA = 120.4971201 mA
//
// Idle:
//
//	logic  40 µA; in 100 µA. valve 0. minus 0; in 1 mW/5 V = 200 µA.
//	bus    300 µA, 1.5 mW; in 1.5 mW/0.8/24 V + 25 µA = 103.125 µA
func TestByHand(t *testing.T) {
	t.Parallel()
	tree, err := Compute(board())
	if err != nil {
		t.Fatal(err)
	}
	var order []string
	for _, r := range tree.Rails {
		order = append(order, fmt.Sprint(strings.Repeat(".", r.Depth), r.Name))
	}
	if got := strings.Join(order, " "); got != "input .bus ..logic ..valve ..minus" {
		t.Error(got)
	}
	bus, logic, valve := tree.Rails[1], tree.Rails[2], tree.Rails[3]
	expect.Near(t, "heat of logic", logic.Flows[1].Heat, "0.1703 W", 1e-12)
	expect.Near(t, "margin of logic", logic.LeastLeft, "100 mA", 1e-12)
	expect.Near(t, "current of bus", bus.Flows[1].Out, "462.6129411764706 mA", 1e-12)
	expect.Near(t, "idle current of bus", bus.Flows[0].Out, "300 µA", 1e-12)
	expect.Near(t, "valve at rest", valve.Flows[0].In, "0 A", 0)
	expect.Near(t, "valve", valve.Flows[1].In, "282.3529411764706 mA", 1e-12)
	expect.Near(t, "idle", tree.Modes[0].Current, "103.125 µA", 1e-12)
	expect.Near(t, "water", tree.MostCurrent, "120.49712009803922 mA", 1e-12)
	expect.Near(t, "day", tree.Charge, "724.8389705882353 mAh", 1e-12) // 18 h · 103.125 µA + 6 h · 120.4971201 mA
	if tree.MostPowerIn != "water" || tree.Modes[0].Time.SI() != 18*3600 {
		t.Error(tree.MostPowerIn, tree.Modes[0].Time)
	}
}

func TestPublished(t *testing.T) {
	t.Parallel()
	// Mean current of a sensor node, 28 mA for 0.65 s, 31 mA for 50 ms, 120 µA
	// for 15 min: 0.142 mA, by iocare.in, "Calculating sensor battery life";
	// (28 · 0.65 + 31 · 0.05 + 0.12 · 900)/900.7 = 127.75/900.7 = 0.141834.
	cycle := units.Number(24.0 / 900.7)
	tree, err := Compute(Inputs{
		Rails: []Rail{{Name: "cell", Voltage: q("3 V")}},
		Modes: []Mode{{Name: "send", Time: q("0.65 h").Mul(cycle)}, {Name: "hear", Time: q("0.05 h").Mul(cycle)}, {Name: "sleep"}},
		Loads: []Load{{Name: "node", Rail: "cell", Currents: qs("28 mA", "31 mA", "120 µA")}},
	})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "mean", tree.MeanCurrent, "0.142 mA", 2e-3)
	expect.Near(t, "mean", tree.MeanCurrent, "0.141834129 mA", 1e-8)
	// Stages in a row multiply their efficiencies (any textbook, from memory):
	// 0.9 · 0.8 = 0.72, so 7.2 W at the end take 10 W from the source.
	tree, err = Compute(Inputs{
		Rails: []Rail{{Name: "a", Voltage: q("48 V")},
			{Name: "b", Voltage: q("12 V"), From: "a", Converter: Converter{Kind: "step-down", Efficiency: q("90 %")}},
			{Name: "c", Voltage: q("3.6 V"), From: "b", Converter: Converter{Kind: "step-down", Efficiency: q("80 %")}}},
		Modes: []Mode{{Name: "on"}},
		Loads: []Load{{Name: "all", Rail: "c", Currents: qs("2 A")}},
	})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "source", tree.MostPower, "10 W", 1e-12)
	expect.Near(t, "efficiency", tree.Efficiency, "72 %", 1e-12)
	// A linear regulator with little ground current has output/input (Toshiba,
	// basics of low-dropout regulators, 4-1): 3.3/5.
	s, err := Linear(StageInputs{Input: q("5 V"), Output: q("3.3 V"), Load: q("150 mA")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "efficiency", s.Power.Div(s.InPower), "66 %", 1e-12)
	w, err := Switching(StageInputs{Input: q("12 V"), Output: q("3.3 V"), Load: q("1 A"), Efficiency: q("85 %")})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "current in", w.In, "323.52941176470586 mA", 1e-12) // 3.3/0.85/12
}

// random draws a tree of up to nine rails.
func random(r *rapid.T) Inputs {
	in := Inputs{Rails: []Rail{{Name: "r0", Voltage: q("10 V")}}, Modes: []Mode{{Name: "a"}, {Name: "b", Time: q("1 h")}}}
	number := func(from, to float64, what string) units.Quantity {
		return units.Number(math.Round(rapid.Float64Range(from, to).Draw(r, what)*1e9) / 1e9)
	}
	for i := 1; i <= rapid.IntRange(0, 8).Draw(r, "rails"); i++ {
		from := in.Rails[rapid.IntRange(0, i-1).Draw(r, "from")]
		one := Rail{Name: fmt.Sprint("r", i), From: from.Name}
		c := &one.Converter
		c.Kind = rapid.SampledFrom([]string{"linear", "step-down", "step-up"}).Draw(r, "kind")
		ratio := number(0.3, 0.95, "ratio")
		one.Voltage = from.Voltage.Mul(ratio)
		if c.Kind == "step-up" {
			one.Voltage = from.Voltage.Div(ratio)
		}
		if c.Kind != "linear" {
			c.Efficiency = number(0.3, 1, "efficiency")
		}
		c.Quiescent = q("1 mA").Mul(number(0, 5, "quiescent"))
		in.Rails = append(in.Rails, one)
	}
	for i, rail := range in.Rails {
		in.Loads = append(in.Loads, Load{Name: fmt.Sprint("l", i), Rail: rail.Name, Currents: []units.Quantity{q("1 µA").Mul(number(0, 10, "sleep")), q("1 A").Mul(number(0, 2, "load"))}})
	}
	return in
}

// What the source gives is what the loads get and the converters lose, in
// every mode. The sum over loads and heats is taken here, from the inputs.
func TestEnergyBalance(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(r *rapid.T) {
		in := random(r)
		tree, err := Compute(in)
		if err != nil {
			r.Fatal(err)
		}
		for m, mode := range tree.Modes {
			sum := 0.0
			for _, rail := range tree.Rails {
				sum += rail.Flows[m].Heat.SI()
				for i, l := range in.Loads {
					if in.Rails[i].Name == rail.Name {
						sum += rail.Voltage.SI() * l.Currents[m].SI()
					}
				}
			}
			if p := mode.Power.SI(); math.Abs(p-sum) > 1e-12*p {
				r.Fatalf("%s: the source gives %v W, loads and heats take %v W", mode.Name, p, sum)
			}
			if s := mode.Loads.SI() + mode.Heat.SI(); math.Abs(s-sum) > 1e-12*sum {
				r.Fatalf("%s: %v W, want %v W", mode.Name, s, sum)
			}
		}
		// More load never takes less from the source.
		in.Loads[len(in.Loads)-1].Currents[1] = in.Loads[len(in.Loads)-1].Currents[1].Add(q("1 mA"))
		more, err := Compute(in)
		if err != nil {
			r.Fatal(err)
		}
		if !tree.MostPower.Less(more.MostPower) {
			r.Fatal("more load, less power")
		}
	})
}

// A day in steps of a second: each second the charges that leave the rails are
// moved by a walk up the tree, one load at a time, nothing summed by rail.
func TestADayInSteps(t *testing.T) {
	t.Parallel()
	for _, hours := range []float64{0, 0.5, 6, 24} {
		for _, eta := range []float64{0.5, 0.8, 1} {
			in := board()
			in.Modes[1].Time = q("1 h").Mul(units.Number(hours))
			in.Rails[2].Converter.Efficiency = units.Number(eta)
			in.Rails = in.Rails[:3] // logic and bus
			in.Loads = []Load{in.Loads[0], in.Loads[3]}
			tree, err := Compute(in)
			if err != nil {
				t.Fatal(err)
			}
			charge, joule := 0.0, 0.0
			for s := range 24 * 3600 {
				controller, lamp := 40e-6, 0.0
				if float64(s) < hours*3600 {
					controller, lamp = 0.1, 0.02
				}
				taken := 25e-6
				for _, amp := range []float64{controller, 60e-6, lamp} {
					taken += amp * 5 / 24 / eta
				}
				charge += taken
				joule += taken * 24
			}
			if got := tree.Charge.SI(); math.Abs(got-charge) > 1e-9*charge {
				t.Errorf("%v h, %v: %v C, in steps %v C", hours, eta, got, charge)
			}
			if got := tree.Energy.SI(); math.Abs(got-joule) > 1e-9*joule {
				t.Errorf("%v h, %v: %v J, in steps %v J", hours, eta, got, joule)
			}
		}
	}
}

// In every case of what spreads, a tree is that of the exact values.
func TestEveryCaseIsComputedByItself(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	place := func(name, low, mid, high string) units.Quantity {
		return study.Place(name, name, units.Range(q(low), q(mid), q(high)))
	}
	values := []units.Quantity{place("Vin", "20 V", "24 V", "28 V"), place("I", "0 A", "80 mA", "300 mA"), place("η", "70 %", "80 %", "90 %"), place("coil", "2 mA", "100 mA", "500 mA"), place("T", "1 h", "6 h", "23 h"), place("sleep", "0 A", "90 mA", "100 mA")}
	tree := Result{}
	expect.EveryCase(t, "Compute", study, values, func(x []units.Quantity) (any, error) {
		in := board()
		in.Rails[1].Voltage, in.Loads[0].Currents[1], in.Rails[2].Converter.Efficiency = x[0], x[1], x[2]
		in.Loads[1].Currents[1], in.Modes[1].Time, in.Loads[0].Currents[0] = x[3], x[4], x[5]
		made, err := Compute(in)
		if tree.Rails == nil { // of the values as they are placed
			tree = made
		}
		return made, err
	})
	if got := tree.Rails[2].MostOutIn; got != "idle or water" {
		t.Errorf("the most of logic is in %s", got)
	}
}

func TestRefusals(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		change func(in *Inputs)
		want   string
	}{
		{func(in *Inputs) { in.Rails[2].From = "logic" }, "rail logic feeds itself: logic from bus from logic: one of them must come from elsewhere"},
		{func(in *Inputs) { in.Rails[2].From = "inptu" }, "rail bus comes from inptu, which is no rail; there are logic, input, bus, valve, minus: write one of them as From"},
		{func(in *Inputs) { in.Rails[2].Name = "input" }, "rails 2 and 3 are both called input: give each a name of its own"},
		{func(in *Inputs) { in.Rails[2].From = "" }, "rails input and bus have no From; a tree has one source: write From of one of them"},
		{func(in *Inputs) { in.Loads[0].Rail = "x" }, `load controller is on rail "x", which is no rail; there are logic, input, bus, valve, minus: write one of them as Rail`},
		{func(in *Inputs) { in.Loads[1].Name = "controller" }, "two loads are called controller: give each a name of its own"},
		{func(in *Inputs) { in.Loads[0].Currents = qs("1 A") }, "load controller: the number of Currents is 1, that of Modes 2: write one for each mode, in the order of Modes"},
		{func(in *Inputs) { in.Loads[0].Currents[0] = q("-1 A") }, "the current of load controller in mode idle is −1 A; it must not be below 0 A: check its sign and the formula it comes from"},
		{func(in *Inputs) { in.Modes[1].Time = q("25 h") }, "the time of water is 25 h; it must not be above a day, 24 h: the modes share one day, so shorten one of them"},
		{func(in *Inputs) { in.Modes[1].Time = q("0 h").Mul(units.Number(0)); in.Modes[0].Time = q("1 h") }, "the time of idle + water is 1 h; it must not be below a day, 24 h: leave Time out of the mode that has the rest of the day"},
		{func(in *Inputs) { in.Rails[1].Voltage = q("5.5 V") }, "the input of rail bus is 5.5 V; its converter needs at least 6 V, which is 500 mV more: raise rail input, or take a converter that starts lower"},
		{func(in *Inputs) { in.Rails[1].Voltage = q("40 V") }, "the input of rail bus is 40 V; its converter stands at most 36 V, which is 4 V less: lower rail input, or take a converter for more"},
		{func(in *Inputs) { in.Rails[0].Voltage = q("4.9 V") }, "the input of rail logic is 5 V; its linear regulator needs 5.2 V, output and Dropout, which is 200 mV more: raise rail bus, or take a regulator with less dropout"},
		{func(in *Inputs) { in.Rails[3].Voltage = q("3 V") }, "Voltage of rail valve is 3 V; it must not be below its input bus, 5 V: step-up makes more of less; write step-down, or another From"},
		{func(in *Inputs) { in.Rails[4].Voltage = q("5 V") }, "Voltage of rail minus is 5 V; behind an inverting converter it must be below 0 V: write it with its sign, such as -5V"},
		{func(in *Inputs) { in.Rails[3].Converter.Kind = "boost" }, `the converter of rail valve is of kind "boost": write linear, step-down, step-up or inverting as Kind`},
		{func(in *Inputs) { in.Rails[2].Converter.Efficiency = q("120 %") }, "Efficiency of rail bus is 120 %; it must not be above that without loss, 100 %: no converter gives more than it takes"},
		{func(in *Inputs) { in.Rails[0].Converter.Efficiency = q("90 %") }, "rail logic has a linear converter and an efficiency: leave it out, it follows from the voltages"},
		{func(in *Inputs) { in.Rails[3].Converter.Efficiency = q("90 %") }, "the step-up converter of rail valve has 2 of Efficiency, Efficiencies and Losses: write one of them"},
		{func(in *Inputs) { in.Loads[1].Currents[1] = q("2 A") }, "rail valve in mode water: Efficiencies: the table: load is 2 A; the column goes from 1 mA to 1 A: add rows there, or say with Held() that the end values hold"},
	} {
		in := board()
		c.change(&in)
		_, err := Compute(in)
		if err == nil || err.Error() != "powertree.Compute: "+c.want {
			t.Errorf("got  %v\nwant powertree.Compute: %s", err, c.want)
		}
	}
}

func TestCheck(t *testing.T) {
	t.Parallel()
	in := board()
	tree, _ := Compute(in)
	left, err := Check(tree)
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "left", left, "50 %", 1e-12) // logic, 100 mA of 200 mA
	in.Loads[0].Currents[1] = q("200 mA")
	tree, _ = Compute(in)
	if left, err = Check(tree); err != nil || left.SI() != 0 {
		t.Error("a rail at its limit:", left, err)
	}
	in.Loads[0].Currents[1] = q("250 mA")
	tree, _ = Compute(in)
	_, err = Check(tree)
	if want := "powertree.Check: rail logic carries 250 mA in mode water, 50 mA above its limit of 200 mA: take a converter for more, move a load to another rail, or take less in this mode"; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

// Nothing infinite comes out, whatever goes in.
func TestWild(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw, _ := expect.Manner(t)
		in := board()
		in.Rails[1].Voltage, in.Rails[2].Voltage, in.Rails[2].Converter.Quiescent = draw("input", "V"), draw("bus", "V"), draw("quiescent", "A")
		in.Rails[2].Converter.Efficiency, in.Loads[3].Currents[1], in.Modes[1].Time = expect.Between(t, 0, 1, ""), draw("lamp", "A"), draw("time", "s")
		in.Rails = in.Rails[1:3]
		in.Loads = in.Loads[3:]
		expect.Finite(t, "Compute", func() (any, error) { return Compute(in) })
	})
}
