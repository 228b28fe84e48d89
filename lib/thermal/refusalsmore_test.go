package thermal

import (
	"fmt"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"

	"pgregory.net/rapid"
)

type refusal struct {
	name string
	err  error
	want string
}

func changed[T any](base T, change func(*T)) T {
	change(&base)
	return base
}

// refusalsMore are the messages of boards, networks, pulses, losses that
// settle, plates and copper, and for each check one argument that meets it.
func refusalsMore() []refusal {
	e := func(_ any, err error) error { return err }
	var none units.Quantity
	K := func(x string) units.Quantity { return q(x + " K/W") }
	measured := func(change func(*MeasuredInputs)) error {
		return e(JunctionFromMeasured(changed(MeasuredInputs{Power: q("1 W"), Psi: Psi{K("2"), K("10")}, Top: q("80 °C"), Board: q("75 °C")}, change)))
	}
	board := func(change func(*TopAndBoardInputs)) error {
		return e(TopAndBoard(changed(TopAndBoardInputs{Ambient: q("50 °C"), Power: q("1 W"), JunctionToCase: K("25"), CaseToAir: K("175"), JunctionToBoard: K("10"), BoardToAir: K("30")}, change)))
	}
	network := func(change func(*NetworkInputs)) error {
		return e(Network(changed(NetworkInputs{Paths: []Segment{{"junction", "board", K("8")}, {"board", "air", K("30")}}, Heats: []Heat{{"junction", q("1 W")}}, Held: []Held{{"air", q("50 °C")}}}, change)))
	}
	coupled := func(change func(*CoupledInputs)) error {
		return e(Coupled(changed(CoupledInputs{Ambient: q("50 °C"), Sources: []CoupledSource{{"regulator", q("0.6 W"), []units.Quantity{K("42"), K("11")}}, {"driver", q("0.9 W"), []units.Quantity{K("11"), K("38")}}}}, change)))
	}
	two := Foster{Stages: []FosterStage{{Resistance: K("1"), TimeConstant: q("1 ms")}, {Resistance: K("2"), Capacitance: q("10 mJ/K")}}}
	zth := func(change func(*Foster)) error {
		n := two
		n.Stages = append([]FosterStage(nil), n.Stages...)
		change(&n)
		return e(Impedance(n, q("1 ms")))
	}
	pulse := func(change func(*PulseInputs)) error {
		return e(Pulse(changed(PulseInputs{Network: two, Reference: q("50 °C"), Power: q("1 W"), Duration: q("1 ms")}, change)))
	}
	pulses := func(change func(*PulsesInputs)) error {
		return e(Pulses(changed(PulsesInputs{Network: two, Reference: q("50 °C"), Pulses: []TimedPulse{{q("0 s"), q("1 ms"), q("1 W")}}}, change)))
	}
	train := func(change func(*PulseTrainInputs)) error {
		return e(PulseTrain(changed(PulseTrainInputs{Network: two, Reference: q("50 °C"), Power: q("1 W"), Duration: q("1 ms"), Period: q("10 ms")}, change)))
	}
	largest := func(change func(*LargestPulseInputs)) error {
		return e(LargestPulse(changed(LargestPulseInputs{Network: two, Reference: q("50 °C"), Limit: q("150 °C"), Duration: q("1 ms"), Period: q("10 ms"), Base: q("1 W")}, change)))
	}
	curve := func(text string) table.Table {
		t, err := table.Text(text)
		if err != nil {
			panic(err)
		}
		return t
	}
	read := func(change func(*CurvePulseInputs)) error {
		return e(CurvePulse(changed(CurvePulseInputs{Curve: curve("time [s] log, impedance [K/W] log\n1e-4, 0.1\n0.1, 2"), Steady: K("2"), Reference: q("50 °C"), Limit: q("150 °C"), Power: q("1 W"), Duration: q("1 ms"), Period: q("10 ms")}, change)))
	}
	settled := func(change func(*SettledInputs)) error {
		return e(Settled(changed(SettledInputs{Ambient: q("60 °C"), Resistance: K("50"), Loss: q("0.5 W"), At: q("25 °C"), Tempco: q("0.5 %/K"), Limit: q("125 °C")}, change)))
	}
	along := func(change func(*SettledCurveInputs)) error {
		return e(SettledCurve(changed(SettledCurveInputs{Ambient: q("60 °C"), Resistance: K("50"), Loss: q("0.5 W"), Factor: curve("junction [°C], factor [1]\n25, 1\n150, 1.8"), Limit: q("125 °C")}, change)))
	}
	leakage := func(change func(*LeakageInputs)) error {
		return e(Leakage(changed(LeakageInputs{Ambient: q("60 °C"), Resistance: K("60"), Fixed: q("0.4 W"), Leakage: q("24 mW"), At: q("75 °C"), Doubling: q("12 K"), Limit: q("125 °C")}, change)))
	}
	plate := Plate{Height: q("0.1 m"), Width: q("0.16 m"), Position: "vertical", Emissivity: q("0.9")}
	loses := func(change func(*Plate)) error { return e(PlateLoss(changed(plate, change), q("80 °C"), q("50 °C"))) }
	copper := CopperInputs{Pad: q("0.3 cm²"), Area: q("6 cm²"), Copper: q("35 µm"), Board: q("40 cm²"), Thickness: q("1.6 mm"), Transfer: q("12 W/(m²·K)")}
	spread := func(change func(*CopperInputs)) error { return e(CopperArea(changed(copper, change))) }
	vias := func(change func(*ViasInputs)) error {
		return e(Vias(changed(ViasInputs{Count: 9, Drill: q("0.3 mm"), Plating: q("20 µm"), Length: q("1.6 mm"), Pad: q("9 mm²")}, change)))
	}
	return []refusal{
		{"nothing measured", measured(func(in *MeasuredInputs) { in.Top, in.Board = none, none }), "thermal.JunctionFromMeasured: neither Top nor Board is given: write the temperature that was measured"},
		{"top without its parameter", measured(func(in *MeasuredInputs) { in.Psi.JunctionToTop = none }), "thermal.JunctionFromMeasured: Psi.JunctionToTop is not given, or is the bare number 0: write its thermal resistance, such as 62 K/W"},
		{"board without its parameter", measured(func(in *MeasuredInputs) { in.Psi.JunctionToBoard = none }), "thermal.JunctionFromMeasured: Psi.JunctionToBoard is not given, or is the bare number 0: write its thermal resistance, such as 62 K/W"},
		{"psi in a network", network(func(in *NetworkInputs) { in.Paths = append(in.Paths, Segment{"junction", "Top", K("2")}) }), `thermal.Network: path 3 goes from junction to Top; a junction-to-top figure (ψJT) is no resistance of a path: use JunctionFromMeasured, or θJC and the point "case"`},
		{"psi by name", network(func(in *NetworkInputs) { in.Paths = append(in.Paths, Segment{"ψJT", "air", K("2")}) }), `thermal.Network: path 3 goes from ψJT to air; a junction-to-top figure (ψJT) is no resistance of a path: use JunctionFromMeasured, or θJC and the point "case"`},
		{"board of no resistance", board(func(in *TopAndBoardInputs) { in.BoardToAir = K("0") }), "thermal.TopAndBoard: BoardToAir is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"others hotter than any board", board(func(in *TopAndBoardInputs) { in.Others = q("1 kW") }), "thermal.TopAndBoard: what Others heat the board by is 30000 K; it must not be above what any board stands, 10000 K: lower Others or BoardToAir"},
		{"others below zero", board(func(in *TopAndBoardInputs) { in.Others = q("-1 W") }), "thermal.TopAndBoard: Others is −1 W; it must not be below 0 W: check its sign and the formula it comes from"},

		{"no paths", network(func(in *NetworkInputs) { in.Paths = nil }), "thermal.Network: Paths is empty; a network needs at least one: write a path from the junction to the air"},
		{"nothing held", network(func(in *NetworkInputs) { in.Held = nil }), "thermal.Network: Held is empty; some point must have a given temperature: write that of the air"},
		{"path to itself", network(func(in *NetworkInputs) { in.Paths = append(in.Paths, Segment{"air", "air", K("2")}) }), "thermal.Network: path 3 goes from air to itself: write the point at its other end"},
		{"path without a name", network(func(in *NetworkInputs) { in.Paths = append(in.Paths, Segment{"air", " ", K("2")}) }), `thermal.Network: path 3 goes from "air" to " "; both points need a name: write what they are, such as junction and case`},
		{"held nowhere", network(func(in *NetworkInputs) { in.Held = []Held{{"ambient", q("50 °C")}} }), `thermal.Network: no path ends at "ambient", which is held; the points are junction, board, air: use one of these names`},
		{"held twice", network(func(in *NetworkInputs) { in.Held = append(in.Held, Held{"air", q("40 °C")}) }), "thermal.Network: air is held twice: give its temperature once"},
		{"heat nowhere", network(func(in *NetworkInputs) { in.Heats = []Heat{{"chip", q("1 W")}} }), `thermal.Network: no path ends at "chip", where heat is made; the points are junction, board, air: use one of these names`},
		{"heat into the air", network(func(in *NetworkInputs) { in.Heats = []Heat{{"air", q("1 W")}} }), "thermal.Network: heat is made at air, whose temperature is held: it would change nothing; give it another point and a path to air"},
		{"island", network(func(in *NetworkInputs) { in.Paths = append(in.Paths, Segment{"coil", "core", K("2")}) }), "thermal.Network: no path leads from coil to air: its heat has nowhere to go; write the path that joins them"},
		{"network of negative heat", network(func(in *NetworkInputs) { in.Heats = []Heat{{"board", q("-1 W")}} }), "thermal.Network: the power at board is −1 W; it must not be below 0 W: check its sign and the formula it comes from"},

		{"no sources", coupled(func(in *CoupledInputs) { in.Sources = nil }), "thermal.Coupled: Sources is empty: write at least one"},
		{"source without a name", coupled(func(in *CoupledInputs) { in.Sources[1].Name = "" }), "thermal.Coupled: source 2 has no name: write what it is, such as regulator"},
		{"figures missing", coupled(func(in *CoupledInputs) { in.Sources[1].Heats = in.Sources[1].Heats[:1] }), "thermal.Coupled: driver: the number of Heats is 1, that of Sources 2: write one for each, itself among them"},
		{"figures exchanged", coupled(func(in *CoupledInputs) { in.Sources[1].Heats = []units.Quantity{K("38"), K("11")} }), "thermal.Coupled: what driver makes at regulator is 38 K/W; it must not be above what it makes at itself, 11 K/W: no source makes a neighbour hotter than itself; write the figures in the order of the sources"},
		{"source of no power", coupled(func(in *CoupledInputs) { in.Sources[0].Power = q("0 W") }), "thermal.Coupled: the power of regulator is 0 W; it must be above 0 W: write its power, such as 500 mW"},

		{"no stages", zth(func(n *Foster) { n.Stages = nil }), "thermal.Impedance: Network has no stages: write each with its resistance and its time constant"},
		{"stage without time", zth(func(n *Foster) { n.Stages[1].Capacitance = none }), "thermal.Impedance: the time constant of stage 2 is not given, or is the bare number 0: write its time, such as 10 µs"},
		{"stage with both", zth(func(n *Foster) { n.Stages[1].TimeConstant = q("1 s") }), "thermal.Impedance: stage 2 has both TimeConstant and Capacitance: give one of them"},
		{"stage of no resistance", zth(func(n *Foster) { n.Stages[0].Resistance = K("0") }), "thermal.Impedance: the resistance of stage 1 is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"ladder", zth(func(n *Foster) { n.KnownTime, n.KnownImpedance = q("1 ms"), K("0.4") }), "thermal.Impedance: the stages make 0.7297 K/W at 1 ms, where KnownImpedance is 0.4 K/W: these are not the stages of that curve; values of a ladder (Cauer or filter network) do not go into a Foster network: take those of the tank network"},
		{"known at no time", zth(func(n *Foster) { n.KnownImpedance = K("0.4") }), "thermal.Impedance: KnownTime is not given, or is the bare number 0: write its time, such as 10 µs"},
		{"time below zero", e(Impedance(two, q("-1 s"))), "thermal.Impedance: time is −1 s; it must not be below 0 s: check its sign and the formula it comes from"},
		{"capacitor as a heat capacity", zth(func(n *Foster) { n.Stages[1].Capacitance = q("10 mF") }), "thermal.Impedance: the capacitance of stage 2 is 10 mF; it must be a heat capacity: write it in J/K, such as 5 mJ/K"},
		{"pulse of no stages", pulse(func(in *PulseInputs) { in.Network = Foster{} }), "thermal.Pulse: Network has no stages: write each with its resistance and its time constant"},
		{"pulse of negative power", pulse(func(in *PulseInputs) { in.Power = q("-1 W") }), "thermal.Pulse: Power is −1 W; it must not be below 0 W: check its sign and the formula it comes from"},
		{"before the end", pulse(func(in *PulseInputs) { in.After = q("-1 ms") }), "thermal.Pulse: After is −1 ms; it must not be below 0 s: check its sign and the formula it comes from"},
		{"no pulses", pulses(func(in *PulsesInputs) { in.Pulses = nil }), "thermal.Pulses: Pulses is empty: write start, duration and power of each pulse"},
		{"pulse backwards", pulses(func(in *PulsesInputs) { in.Pulses = append(in.Pulses, TimedPulse{q("1 s"), q("-1 s"), q("1 W")}) }), "thermal.Pulses: the duration of pulse 2 is −1 s; it must not be below 0 s: check its sign and the formula it comes from"},
		{"time as a length", pulses(func(in *PulsesInputs) { in.Times = []units.Quantity{q("1 m")} }), "thermal.Pulses: time 1 is 1 m; it must be a time: write it in s, such as 10 µs"},
		{"pulse longer than the period", train(func(in *PulseTrainInputs) { in.Duration = q("11 ms") }), "thermal.PulseTrain: Duration is 11 ms; it must not be above Period, 10 ms: lengthen the period, or take the power as constant"},
		{"train without a period", train(func(in *PulseTrainInputs) { in.Period = none }), "thermal.PulseTrain: Period is not given, or is the bare number 0: write its time, such as 10 µs"},
		{"base alone is too hot", largest(func(in *LargestPulseInputs) { in.Base = q("40 W") }), "thermal.LargestPulse: Limit is 150 °C; it must be above what Base alone heats to, 170 °C: lower Base or Reference, or choose a part with a higher limit"},
		{"largest of too long a pulse", largest(func(in *LargestPulseInputs) { in.Duration = q("11 ms") }), "thermal.LargestPulse: Duration is 11 ms; it must not be above Period, 10 ms: lengthen the period, or take the power as constant"},

		{"no curve", read(func(in *CurvePulseInputs) { in.Curve = table.Table{} }), `thermal.CurvePulse: Curve is not given: write a table whose columns are in s and K/W, such as Table("file.csv") or table.Text("…")`},
		{"curve of something else", read(func(in *CurvePulseInputs) { in.Curve = curve("time [s], factor [1]\n1, 1\n2, 2") }), "thermal.CurvePulse: Curve: column 2 of the table (factor) is in 1; it must be in K/W, or in another unit of that kind"},
		{"curve too short", read(func(in *CurvePulseInputs) { in.Period = q("1 s") }), "thermal.CurvePulse: the table: time is 1.001 s; the column goes from 100 µs to 100 ms: add rows there, or say with Held() that the end values hold"},
		{"curve of zero", read(func(in *CurvePulseInputs) { in.Curve = curve("time [s], impedance [K/W]\n0, 0\n0.001, 0\n1, 1") }), "thermal.CurvePulse: the impedance in Curve is 0 K/W; it must be above 0 K/W: write its thermal resistance, such as 62 K/W"},
		{"train without its resistance", read(func(in *CurvePulseInputs) { in.Steady = none }), "thermal.CurvePulse: Steady is not given, or is the bare number 0: write its thermal resistance, such as 62 K/W"},
		{"curve read for too long a pulse", read(func(in *CurvePulseInputs) { in.Duration = q("11 ms") }), "thermal.CurvePulse: Duration is 11 ms; it must not be above Period, 10 ms: lengthen the period, or take the power as constant"},
		{"curve that falls", read(func(in *CurvePulseInputs) {
			in.Curve = curve("time [s], impedance [K/W]\n0, 0.1\n0.001, 0.1\n0.01, 90\n0.011, 1\n1, 1")
		}), "thermal.CurvePulse: the impedance of the train comes out as −88.8 K/W: Curve falls between Duration and Period; that of a single pulse only rises"},

		{"runaway", settled(func(in *SettledInputs) { in.Loss = q("5 W") }), "thermal.Settled: the loop gain Resistance · Loss · Tempco is 1.25; from 1 on the part runs away at any ambient: bring Resistance, 50 K/W, below 40 K/W, or lower Loss"},
		{"tempco too large", settled(func(in *SettledInputs) { in.Ambient, in.Tempco = q("-40 °C"), q("2 %/K") }), "thermal.Settled: Ambient is −40 °C; with Tempco, 2 %/K, the straight line has fallen to no loss there: take the tempco between temperatures at which the part works"},
		{"tempco in degrees", settled(func(in *SettledInputs) { in.Tempco = q("0.5 %") }), "thermal.Settled: Tempco is 0.5 %; it must be a temperature coefficient: write it in 1/K, such as 0.1 %/K"},
		{"settled above its limit", settled(func(in *SettledInputs) { in.Limit = q("50 °C") }), "thermal.Settled: Limit is 50 °C; it must be above Ambient, 60 °C: lower the ambient temperature or choose a part with a higher limit"},
		{"does not settle below its limit", along(func(in *SettledCurveInputs) { in.Loss = q("1 W") }), "thermal.SettledCurve: at Limit the loss heats by 82 K; it must be below 65 K, from Ambient to Limit: the part does not settle below its limit; lower Loss, Resistance or Ambient"},
		{"factor beyond its curve", along(func(in *SettledCurveInputs) { in.Limit = q("175 °C") }), "thermal.SettledCurve: the table: junction is 175 °C; the column goes from 25 °C to 150 °C: add rows there, or say with Held() that the end values hold"},
		{"factor below zero", along(func(in *SettledCurveInputs) { in.Factor = curve("junction [°C], factor [1]\n25, -1\n150, 1.8") }), "thermal.SettledCurve: the factor in Factor is −0.216; it must be above 0 %: check its sign and the formula it comes from"},
		{"leakage runs away", leakage(func(in *LeakageInputs) { in.Ambient = q("80 °C") }), "thermal.Leakage: Ambient is 80 °C; that is 3.26 K too hot: the leakage heats the part more than Resistance carries away, and it runs away; lower Ambient, Resistance or Fixed, or choose a part with less leakage"},
		{"doubling as a point", leakage(func(in *LeakageInputs) { in.Doubling = q("12 °C") }), "thermal.Leakage: Doubling is 12 °C; it must be a difference of temperatures: write it in K, such as 40 K"},

		{"leaning plate", loses(func(p *Plate) { p.Position = "upright" }), `thermal.PlateLoss: Position is "upright"; it must be "vertical", "vertical, one face", "horizontal", "face up" or "face down"`},
		{"blacker than black", loses(func(p *Plate) { p.Emissivity = q("1.2") }), "thermal.PlateLoss: Emissivity is 1.2; it must not be above that of a black body, 1: write 0.9 for lacquer, solder resist or plastics"},
		{"plate of no height", loses(func(p *Plate) { p.Height = q("0 m") }), "thermal.PlateLoss: Height is 0 m; it must be above 0 m: write its length, such as 10 mm"},
		{"cold plate", e(PlateLoss(plate, q("50 °C"), q("50 °C"))), "thermal.PlateLoss: surface is 50 °C; it must be above ambient, 50 °C: without a difference nothing flows"},
		{"glowing plate", e(PlateLoss(plate, q("900 °C"), q("50 °C"))), "thermal.PlateLoss: the air between surface and ambient is at 475 °C; its properties are known from −73 °C to 326 °C: check both temperatures"},
		{"too much for the plate", e(PlateTemperature(plate, q("10 kW"), q("50 °C"))), "thermal.PlateTemperature: power is 10 kW; the plate would be hotter than 602 °C: lower it or take a larger plate"},
		{"in an oven", e(PlateTemperature(plate, q("1 W"), q("350 °C"))), "thermal.PlateTemperature: the air between surface and ambient is at 350 °C; its properties are known from −73 °C to 326 °C: check both temperatures"},
		{"tiny plate", loses(func(p *Plate) { p.Position, p.Height, p.Width = "face down", q("1 mm"), q("1 mm") }), `thermal.PlateLoss: the Rayleigh number is 0.02531; the correlation for "face down" holds from 1000 to 1e10: check Height, Width and Pressure`},
		{"huge plate", e(PlateTemperature(Plate{Height: q("20 m"), Width: q("20 m"), Position: "vertical"}, q("10 kW"), q("20 °C"))), `thermal.PlateTemperature: the Rayleigh number is 4.336e12; the correlation for "vertical" holds from 0 to 1e12: check Height, Width and Pressure`},

		{"pad larger than its copper", spread(func(in *CopperInputs) { in.Pad = q("7 cm²") }), "thermal.CopperArea: Pad is 7 cm²; it must not be above Area, 6 cm²: count the pad with the copper that it is part of"},
		{"copper larger than the board", spread(func(in *CopperInputs) { in.Board = q("5 cm²") }), "thermal.CopperArea: Area is 6 cm²; it must not be above Board, 5 cm²: leave Board out where the board ends with the copper"},
		{"area as a length", spread(func(in *CopperInputs) { in.Area = q("6 cm") }), "thermal.CopperArea: Area is 6 cm; it must be a surface area: write it in m², such as 1 cm²"},
		{"no transfer", spread(func(in *CopperInputs) { in.Transfer = none }), "thermal.CopperArea: Transfer is not given, or is the bare number 0: write its heat transfer coefficient, such as 10 W/m²/K"},
		{"neighbour beyond the board", e(Neighbour(copper, q("40 mm"))), "thermal.Neighbour: distance is 40 mm; it must not be above the radius of a disc of the board's area, 35.68 mm: no neighbour is farther away on this board"},
		{"no vias", vias(func(in *ViasInputs) { in.Count = 0 }), "thermal.Vias: Count is 0; it must be from 1 to 10000: write how many vias the pad has"},
		{"too many vias", vias(func(in *ViasInputs) { in.Count = 200 }), "thermal.Vias: Count holes of Drill take 14.14 mm² together; they must be below Pad, 9 mm²: lower Count or Drill"},
		{"plating too thick", vias(func(in *ViasInputs) { in.Plating = q("0.2 mm") }), "thermal.Vias: Plating is 200 µm; it must not be above half of Drill, 150 µm: more does not fit into the hole"},
	}
}

func TestRefusalsMore(t *testing.T) {
	t.Parallel()
	for _, test := range refusalsMore() {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, these functions do not panic either, and a result
// without an error holds finite numbers only.
func TestNothingInfiniteLeavesMore(t *testing.T) {
	t.Parallel()
	rising := expect.Table("time [s] log, impedance [K/W] log\n1e-25, 1e-25\n1e-3, 1\n1e25, 1e25")
	factor := expect.Table("junction [°C], factor [1]\n-100, 0.1\n25, 1\n150, 1e9")
	rapid.Check(t, func(t *rapid.T) {
		quantity, _ := expect.Manner(t)
		point := func(name string) units.Quantity { return quantity(name, "°C") }
		p := func(name string) units.Quantity { return quantity(name, "W") }
		r := func(name string) units.Quantity { return quantity(name, "K/W") }
		s := func(name string) units.Quantity { return quantity(name, "s") }
		m := func(name string) units.Quantity { return quantity(name, "m") }
		m2 := func(name string) units.Quantity { return quantity(name, "m²") }
		k := func(name string) units.Quantity { return quantity(name, "W/(m·K)") }
		network := Foster{Stages: []FosterStage{{Resistance: r("R1"), TimeConstant: s("τ1")}, {Resistance: r("R2"), Capacitance: quantity("C2", "J/K")}}}
		plate := Plate{m("height"), m("width"), rapid.SampledFrom([]string{"vertical", "horizontal", "face up", "face down", "vertical, one face"}).Draw(t, "position"), quantity("emissivity", ""), quantity("pressure", "Pa")}
		copper := CopperInputs{m2("pad"), m2("area"), m("copper"), m2("board"), m("thickness"), quantity("transfer", "W/(m²·K)"), rapid.Bool().Draw(t, "one face"), k("copper conducts"), k("board conducts")}
		for i, c := range []func() (any, error){
			func() (any, error) {
				return box(JunctionFromMeasured(MeasuredInputs{p("P"), Psi{r("top"), r("board")}, point("Tt"), point("Tb")}))
			},
			func() (any, error) {
				return box(TopAndBoard(TopAndBoardInputs{point("Ta"), p("P"), r("a"), r("b"), r("c"), r("d"), p("others")}))
			},
			func() (any, error) {
				return box(Network(NetworkInputs{[]Segment{{"a", "b", r("ab")}, {"b", "c", r("bc")}, {"c", "d", r("cd")}, {"a", "c", r("ac")}, {"b", "d", r("bd")}}, []Heat{{"a", p("Pa")}, {"b", p("Pb")}}, []Held{{"d", point("Td")}}}))
			},
			func() (any, error) {
				return box(Coupled(CoupledInputs{point("Ta"), []CoupledSource{{"a", p("Pa"), []units.Quantity{r("aa"), r("ab")}}, {"b", p("Pb"), []units.Quantity{r("ba"), r("bb")}}}}))
			},
			func() (any, error) { return box(Impedance(network, s("t"))) },
			func() (any, error) { return box(Pulse(PulseInputs{network, point("Tr"), p("P"), s("t"), s("after")})) },
			func() (any, error) {
				return box(Pulses(PulsesInputs{network, point("Tr"), []TimedPulse{{s("t1"), s("d1"), p("P1")}, {s("t2"), s("d2"), p("P2")}}, []units.Quantity{s("t3")}}))
			},
			func() (any, error) {
				return box(PulseTrain(PulseTrainInputs{network, point("Tr"), p("P"), s("t"), s("T"), p("base")}))
			},
			func() (any, error) {
				return box(LargestPulse(LargestPulseInputs{network, point("Tr"), point("Tl"), s("t"), s("T"), p("base")}))
			},
			func() (any, error) {
				return box(CurvePulse(CurvePulseInputs{rising, r("Rth"), point("Tr"), point("Tl"), p("P"), s("t"), s("T")}))
			},
			func() (any, error) {
				return box(Settled(SettledInputs{point("Ta"), r("R"), p("P"), point("T0"), quantity("α", "1/K"), p("fixed"), point("Tl")}))
			},
			func() (any, error) {
				return box(SettledCurve(SettledCurveInputs{point("Ta"), r("R"), p("P"), factor, p("fixed"), point("Tl")}))
			},
			func() (any, error) {
				return box(Leakage(LeakageInputs{point("Ta"), r("R"), p("fixed"), p("P"), point("T0"), quantity("d", "K"), point("Tl")}))
			},
			func() (any, error) { return box(PlateLoss(plate, point("Ts"), point("Ta"))) },
			func() (any, error) { return box(PlateTemperature(plate, p("P"), point("Ta"))) },
			func() (any, error) { return box(CopperArea(copper)) },
			func() (any, error) { return box(Neighbour(copper, m("distance"))) },
			func() (any, error) {
				return box(Vias(ViasInputs{rapid.IntRange(-1, 30).Draw(t, "count"), m("drill"), m("plating"), m("length"), m2("pad"), k("filling"), k("copper"), k("board")}))
			},
		} {
			expect.Finite(t, fmt.Sprint("call ", i), c)
		}
	})
}
