package loop

import (
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"
)

func box[T any](x T, err error) (any, error) { return x, err }

// Plants and amplifiers of our own that have all they can have.
func currentMode() Plant {
	return Plant{Gain: q("40"), Frequency: q("400 kHz"), Poles: all("430 Hz"), Zeros: all("1 MHz"), RightZero: q("300 kHz"), SamplingQuality: q("0.64"), Delay: q("100 ns")}
}

func voltageMode() Plant {
	return Plant{Gain: q("9"), Frequency: q("400 kHz"), Zeros: all("300 kHz"), Resonance: q("5 kHz"), Quality: q("3")}
}

func gmAmplifier() Amplifier {
	return Amplifier{Transconductance: q("350 µS"), OutputResistance: q("2 MΩ"), Upper: q("52.3 kΩ"), Lower: q("10 kΩ"), Resistor: q("20 kΩ"), Capacitor: q("10 nF"), HighCapacitor: q("33 pF")}
}

func opAmplifier() Amplifier {
	return Amplifier{GainBandwidth: q("5 MHz"), Upper: q("10 kΩ"), Lower: q("2 kΩ"), LeadResistor: q("390 Ω"), LeadCapacitor: q("3.3 nF"), Resistor: q("12 kΩ"), Capacitor: q("3.3 nF"), HighCapacitor: q("47 pF")}
}

// Every case of a value with spread is what the function gives of the exact
// value in it, and nothing on the way decides for all cases or drops the
// spread: each argument in turn. Without holds the results that do not depend
// on the value.
func TestSpreadIsKept(t *testing.T) {
	t.Parallel()
	place := PlaceInputs{Plant: voltageMode(), Amplifier: Amplifier{Upper: q("10 kΩ")}, Crossover: q("40 kHz"), Zero: q("2.5 kHz"), Pole: q("200 kHz"), LeadZero: q("5 kHz"), LeadPole: q("150 kHz")}
	gm := Amplifier{Transconductance: q("350 µS"), Upper: q("52.3 kΩ"), Lower: q("10 kΩ")}
	var tests []spreadTest
	// Every value of plant and amplifier, through Margins and Response.
	for _, pair := range []struct {
		name      string
		plant     Plant
		amplifier Amplifier
	}{{"current mode", currentMode(), gmAmplifier()}, {"voltage mode", voltageMode(), opAmplifier()}} {
		for _, field := range fields(pair.plant, pair.amplifier) {
			margins := func(x units.Quantity) (any, error) {
				p, a := pair.plant, pair.amplifier
				field.set(&p, &a, x)
				return box(Margins(p, a))
			}
			response := func(x units.Quantity) (any, error) {
				p, a := pair.plant, pair.amplifier
				field.set(&p, &a, x)
				return box(Response(p, a, q("30 kHz")))
			}
			value := units.Tolerance(field.value, q("30 %"))
			tests = append(tests, spreadTest{"Margins, " + pair.name + ", " + field.name, value, margins, nil, true}, spreadTest{"Response, " + pair.name + ", " + field.name, value, response, nil, true})
		}
	}
	aim := DesignInputs{Plant: currentMode(), Amplifier: gm, Crossover: q("25 kHz"), PhaseMargin: q("60 deg")}
	with := func(change func(*DesignInputs)) DesignInputs { in := aim; change(&in); return in }
	lift := DesignInputs{Plant: voltageMode(), Amplifier: gm, Crossover: q("40 kHz"), PhaseMargin: q("45 deg")}
	tests = append(tests,
		spreadTest{"Response, frequency", units.Tolerance(q("30 kHz"), q("30 %")), func(x units.Quantity) (any, error) { return box(Response(currentMode(), gmAmplifier(), x)) }, nil, false},
		spreadTest{"TypeI", units.Tolerance(q("9"), q("20 %")), func(x units.Quantity) (any, error) {
			p := voltageMode()
			p.Gain = x
			return box(TypeI(DesignInputs{Plant: p, Amplifier: gm, Crossover: q("500 Hz")}))
		}, []string{"PlantPhase", "PhaseMargin"}, false},
		spreadTest{"TypeII, gain", units.Tolerance(q("40"), q("20 %")), func(x units.Quantity) (any, error) {
			return box(TypeII(with(func(in *DesignInputs) { in.Plant.Gain = x })))
		}, []string{"PlantPhase", "Boost", "Ratio", "Zero", "Pole"}, false},
		spreadTest{"TypeII, margin", units.Tolerance(q("60 deg"), q("10 deg")), func(x units.Quantity) (any, error) {
			return box(TypeII(with(func(in *DesignInputs) { in.PhaseMargin = x })))
		}, []string{"PlantGain", "PlantPhase"}, false},
		spreadTest{"TypeII, crossover", units.Tolerance(q("25 kHz"), q("30 %")), func(x units.Quantity) (any, error) {
			return box(TypeII(with(func(in *DesignInputs) { in.Crossover = x })))
		}, nil, false},
		// The divider limits the lead in some cases and does not in others.
		spreadTest{"TypeIII, lower resistor", units.Range(q("0.3 kΩ"), q("3 kΩ"), q("10 kΩ")), func(x units.Quantity) (any, error) {
			in := lift
			in.Amplifier.Lower = x
			return box(TypeIII(in))
		}, []string{"PlantGain", "PlantPhase", "Boost"}, false},
		spreadTest{"TypeIII, crossover", units.Tolerance(q("40 kHz"), q("30 %")), func(x units.Quantity) (any, error) {
			in := lift
			in.Crossover = x
			return box(TypeIII(in))
		}, []string{"LeadBoost", "LeadRatio"}, true},
		spreadTest{"Place, zero", units.Tolerance(q("2.5 kHz"), q("30 %")), func(x units.Quantity) (any, error) { in := place; in.Zero = x; return box(Place(in)) }, []string{"PlantGain", "LeadResistor", "LeadCapacitor"}, false},
		spreadTest{"Place, lead", units.Tolerance(q("5 kHz"), q("30 %")), func(x units.Quantity) (any, error) { in := place; in.LeadZero = x; return box(Place(in)) }, []string{"PlantGain"}, false},
	)
	for _, test := range tests {
		test.run(t)
	}
}

type spreadTest struct {
	name    string
	value   units.Quantity
	call    func(x units.Quantity) (any, error)
	without []string
	loose   bool // some results may depend on the value or not
}

func (test spreadTest) run(t *testing.T) {
	without := test.without
	if test.loose {
		without = []string{"*"}
	}
	moved := false
	for _, x := range expect.Spread(t, test.name, test.value, test.call, without...) {
		low, high, ok := x.Limits()
		moved = moved || ok && low.SI() != high.SI()
	}
	if !moved && test.name != "Response, voltage mode, Frequency" { // nothing is sampled there
		t.Errorf("%s moves nothing", test.name)
	}
}

// field is a quantity of a plant or an amplifier.
type field struct {
	name  string
	value units.Quantity
	set   func(p *Plant, a *Amplifier, x units.Quantity)
}

func fields(p Plant, a Amplifier) (list []field) {
	for i := range reflect.TypeFor[Plant]().NumField() {
		name := reflect.TypeFor[Plant]().Field(i).Name
		switch x := reflect.ValueOf(p).Field(i).Interface().(type) {
		case units.Quantity:
			if x != none {
				list = append(list, field{name, x, func(p *Plant, _ *Amplifier, x units.Quantity) {
					reflect.ValueOf(p).Elem().Field(i).Set(reflect.ValueOf(x))
				}})
			}
		case []units.Quantity:
			if len(x) > 0 {
				list = append(list, field{name, x[0], func(p *Plant, _ *Amplifier, x units.Quantity) {
					reflect.ValueOf(p).Elem().Field(i).Set(reflect.ValueOf([]units.Quantity{x}))
				}})
			}
		}
	}
	for i := range reflect.TypeFor[Amplifier]().NumField() {
		if x := reflect.ValueOf(a).Field(i).Interface().(units.Quantity); x != none {
			list = append(list, field{reflect.TypeFor[Amplifier]().Field(i).Name, x, func(_ *Plant, a *Amplifier, x units.Quantity) {
				reflect.ValueOf(a).Elem().Field(i).Set(reflect.ValueOf(x))
			}})
		}
	}
	return list
}

// The points of a picture are those of Response, with their spread.
func TestBodeKeepsSpread(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	a := gmAmplifier()
	a.Transconductance = study.Place("gm", "gm", units.Tolerance(q("350 µS"), q("30 %")))
	b, err := Bode(currentMode(), a, q("100 Hz"), q("200 kHz"))
	expect.Must(t, b, err)
	for _, figure := range []struct {
		name string
		of   func(r ResponseResult) []units.Quantity
		got  [][]units.Quantity
	}{
		{"gain", func(r ResponseResult) []units.Quantity { return []units.Quantity{r.Gain, r.PlantGain, r.AmplifierGain} }, [][]units.Quantity{b.Gain.Series[0].Y, b.Gain.Series[1].Y, b.Gain.Series[2].Y}},
		{"phase", func(r ResponseResult) []units.Quantity {
			return []units.Quantity{r.Phase, r.PlantPhase, r.AmplifierPhase}
		}, [][]units.Quantity{b.Phase.Series[0].Y, b.Phase.Series[1].Y, b.Phase.Series[2].Y}},
	} {
		for i, x := range b.Gain.Series[0].X {
			r, err := Response(currentMode(), a, x)
			expect.Must(t, r, err)
			for k, want := range figure.of(r) {
				if got := figure.got[k][i]; !got.Identical(want) {
					t.Errorf("%s of series %d at %v is %v, want %v", figure.name, k, x, got, want)
				}
			}
		}
	}
	first, last := b.Gain.Series[0].X[0], b.Gain.Series[0].X[80]
	expect.Near(t, "the first frequency", first, "100 Hz", 1e-12)
	expect.Near(t, "the last", last, "200 kHz", 1e-12)
	if !b.Gain.Series[0].Y[3].HasSpread() || b.Gain.Series[1].Y[3].HasSpread() {
		t.Error("the loop's gain has no spread, or the plant's has")
	}
}
