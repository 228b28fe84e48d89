package loop

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Every message of the package that is not argument's own, exactly, and for
// each function one argument that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	margins := func(change func(*Plant, *Amplifier)) error {
		p, a := currentMode(), gmAmplifier()
		change(&p, &a)
		return e(Margins(p, a))
	}
	op := func(change func(*Amplifier)) error {
		a := opAmplifier()
		change(&a)
		return e(Margins(voltageMode(), a))
	}
	aim := DesignInputs{Plant: currentMode(), Amplifier: Amplifier{Transconductance: q("350 µS"), Upper: q("52.3 kΩ"), Lower: q("10 kΩ")}, Crossover: q("25 kHz"), PhaseMargin: q("60 deg")}
	with := func(change func(*DesignInputs)) DesignInputs { in := aim; change(&in); return in }
	put := PlaceInputs{Plant: currentMode(), Amplifier: aim.Amplifier, Crossover: q("25 kHz"), Zero: q("430 Hz"), Pole: q("200 kHz"), LeadZero: q("20 kHz"), LeadPole: q("100 kHz")}
	placed := func(change func(*PlaceInputs)) error { in := put; change(&in); return e(Place(in)) }
	study := units.NewStudy(units.StudyOptions{Boards: 20})
	wide := study.Place("gm", "gm", units.Range(q("1 nS"), q("350 µS"), q("400 µS")))
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"no gain", e(Response(Plant{Frequency: q("1 MHz")}, gmAmplifier(), q("1 kHz"))), "loop.Response: Gain is not given, or is the bare number 0: write its share, such as 60 %"},
		{"a pole of nothing", margins(func(p *Plant, _ *Amplifier) { p.Poles = all("1 kHz", "0 Hz") }), "loop.Margins: Poles[1] is 0 Hz; it must be above 0 Hz: write its frequency, such as 100 kHz"},
		{"a zero that is no frequency", margins(func(p *Plant, _ *Amplifier) { p.Zeros = all("1 Ω") }), "loop.Margins: Zeros[0] is 1 Ω; it must be a frequency: write it in Hz, such as 100 kHz"},
		{"resonance without quality", margins(func(p *Plant, _ *Amplifier) { p.Resonance = q("5 kHz") }), "loop.Margins: of Resonance and Quality one is given; a pair of poles needs both: give the other, or leave out both"},
		{"a negative quality", margins(func(p *Plant, _ *Amplifier) { p.SamplingQuality = q("-2") }), "loop.Margins: SamplingQuality is −2; it must be above 0 %: check its sign and the formula it comes from"},
		{"two amplifiers", margins(func(_ *Plant, a *Amplifier) { a.GainBandwidth = q("5 MHz") }), "loop.Margins: both Transconductance and GainBandwidth are given; the first makes a transconductance amplifier, the second an operational one: leave out one"},
		{"the output of none", op(func(a *Amplifier) { a.OutputResistance = q("1 MΩ") }), "loop.Margins: OutputResistance is given without Transconductance; it is that of a transconductance amplifier: give both, or leave it out"},
		{"no lower", margins(func(_ *Plant, a *Amplifier) { a.Lower = none }), "loop.Margins: Lower is not given; with a Transconductance or a GainBandwidth the lower resistor of the divider counts: write its resistance, such as 10 kΩ"},
		{"a lead without capacitor", op(func(a *Amplifier) { a.LeadCapacitor = none }), "loop.Margins: LeadResistor is given without LeadCapacitor; alone it would change the output voltage: give both, or leave out both"},
		{"much gain", margins(func(p *Plant, _ *Amplifier) { p.Gain = q("40000") }), "loop.Margins: the gain at half the switching frequency is 35.25 dB; it must be below a gain of 1, 0 dB: such a loop oscillates; give the amplifier less gain, or raise the output capacitance"},
		{"no gain in one case", margins(func(_ *Plant, a *Amplifier) { a.Transconductance = wide }), "loop.Margins: the gain at a millionth of the switching frequency is −37.84 dB where gm is 1 nS; it must be above a gain of 1, 0 dB: such a loop hardly regulates; give the amplifier more gain"},
		{"fast", e(TypeII(with(func(in *DesignInputs) { in.Crossover = q("300 kHz") }))), "loop.TypeII: Crossover is 300 kHz; it must be below half the switching frequency, 200 kHz: no loop is faster; lower it to about a tenth"},
		{"a part that is to be found", e(TypeII(with(func(in *DesignInputs) { in.Amplifier.Resistor = q("1 kΩ") }))), "loop.TypeII: Resistor is 1 kΩ, but this function finds it: leave it out, and give the chosen parts to Margins"},
		{"a margin for type I", e(TypeI(aim)), "loop.TypeI: PhaseMargin is 60 °, but this function finds it: leave it out"},
		{"type I too fast", e(TypeI(with(func(in *DesignInputs) { in.PhaseMargin = none }))), "loop.TypeI: the phase margin is −14.47 °; it must be above zero, 0 °: an integrator alone cannot close this loop there; lower Crossover or take TypeII or TypeIII"},
		{"little wanted", e(TypeIII(with(func(in *DesignInputs) { in.PhaseMargin = q("60 deg"); in.Crossover = q("10 Hz") }))), "loop.TypeIII: the boost that the network must give is −28.66 °; it must be above zero, 0 °: the plant leaves more phase margin than that; raise PhaseMargin or Crossover, or take TypeI"},
		{"much for one zero", e(TypeII(with(func(in *DesignInputs) { in.PhaseMargin = q("80 deg") }))), "loop.TypeII: the boost that the network must give is 94.47 °; it must be below the most, 90 °: one zero cannot; lower PhaseMargin or Crossover, or take TypeIII"},
		{"much for two", e(TypeIII(with(func(in *DesignInputs) { in.PhaseMargin, in.Crossover = q("100 deg"), q("100 kHz") }))), "loop.TypeIII: the boost that the network must give is 162.2 °; it must be below the most, 136.3 °: two zeros cannot; lower PhaseMargin or Crossover"},
		{"pole below zero", placed(func(in *PlaceInputs) { in.Pole = q("400 Hz") }), "loop.Place: Pole is 400 Hz; it must be above Zero, 430 Hz: the pole ends what the zero begins; raise it or lower the zero"},
		{"half a lead", placed(func(in *PlaceInputs) { in.LeadPole = none }), "loop.Place: of LeadZero and LeadPole one is given; the parts across the upper resistor make both: give the other, or leave out both"},
		{"a lead that the divider does not let", placed(func(in *PlaceInputs) { in.LeadPole = q("150 kHz") }), "loop.Place: LeadPole is 150 kHz; it must not be above LeadZero times 1 + Upper/Lower, 124.6 kHz: the divider lets the lead lift no further; lower LeadPole or raise LeadZero"},
		{"a picture backwards", e(Bode(currentMode(), gmAmplifier(), q("1 MHz"), q("1 kHz"))), "loop.Bode: to is 1 kHz; it must be above from, 1 MHz: the picture goes from the lower to the higher frequency"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever a function is given, it returns an error or finite numbers.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	unit := map[string]string{
		"Gain": "", "Frequency": "Hz", "Poles": "Hz", "Zeros": "Hz", "RightZero": "Hz", "Resonance": "Hz", "Quality": "", "SamplingQuality": "", "Delay": "s",
		"Transconductance": "S", "OutputResistance": "Ω", "GainBandwidth": "Hz", "Upper": "Ω", "Lower": "Ω", "LeadResistor": "Ω", "LeadCapacitor": "F",
		"Resistor": "Ω", "Capacitor": "F", "HighCapacitor": "F", "Crossover": "Hz", "PhaseMargin": "rad", "Zero": "Hz", "Pole": "Hz", "LeadZero": "Hz", "LeadPole": "Hz",
	}
	usual := map[string]float64{"Hz": 1e4, "": 3, "s": 1e-7, "S": 1e-3, "Ω": 1e4, "F": 1e-8, "rad": 1}
	passed := 0
	rapid.Check(t, func(t *rapid.T) {
		wild := rapid.Bool().Draw(t, "wild")
		quantity := func(name, unit string) units.Quantity {
			if !wild {
				return of(usual[unit]*size(t, name, 1e-3, 1e3), unit)
			}
			if rapid.IntRange(0, 9).Draw(t, name+" kind") == 0 {
				return q(rapid.SampledFrom([]string{"25 °C", "3 V", "0 Hz", "-1 Ω"}).Draw(t, name))
			}
			return of(rapid.SampledFrom([]float64{0, 1, -1, 1e-29, 1e29, 1e-12, 1e12, 1e300, math.Inf(1), math.NaN(), usual[unit]}).Draw(t, name), unit)
		}
		var fill func(v reflect.Value)
		fill = func(v reflect.Value) {
			for i := range v.NumField() {
				name, f := v.Type().Field(i).Name, v.Field(i)
				given := rapid.IntRange(0, 9).Draw(t, name+" given") > 0
				switch {
				case f.Type() == reflect.TypeFor[Plant]() || f.Type() == reflect.TypeFor[Amplifier]():
					fill(f)
				case f.Kind() == reflect.Slice && given:
					f.Set(reflect.ValueOf([]units.Quantity{quantity(name, unit[name]), quantity(name+" 2", unit[name])}))
				case f.Kind() == reflect.Struct && given:
					f.Set(reflect.ValueOf(quantity(name, unit[name])))
				}
			}
		}
		var p Plant
		var a Amplifier
		var d DesignInputs
		var place PlaceInputs
		for _, v := range []any{&p, &a, &d, &place} {
			fill(reflect.ValueOf(v).Elem())
		}
		if !wild { // so that designs come about
			for _, x := range []*Amplifier{&d.Amplifier, &place.Amplifier} {
				x.LeadResistor, x.LeadCapacitor, x.Resistor, x.Capacitor, x.HighCapacitor, x.OutputResistance, x.GainBandwidth = none, none, none, none, none, none, none
				x.Lower = x.Upper
			}
		}
		check := func(name string, result any, err error) {
			if err != nil {
				return
			}
			passed++
			for field, x := range expect.Quantities(result) {
				if math.IsNaN(x.SI()) || math.IsInf(x.SI(), 0) {
					t.Fatalf("%s: %s is %v", name, field, x.SI())
				}
			}
		}
		m, err := Margins(p, a)
		check("Margins", m, err)
		r, err := Response(p, a, quantity("frequency", "Hz"))
		check("Response", r, err)
		two, err := TypeII(d)
		check("TypeII", two, err)
		three, err := TypeIII(d)
		check("TypeIII", three, err)
		d.PhaseMargin = none
		one, err := TypeI(d)
		check("TypeI", one, err)
		c, err := Place(place)
		check("Place", c, err)
	})
	if passed == 0 && !testing.Short() { // which draws few
		t.Error("no call came to a result")
	}
}

// What physics says of any loop: more gain makes it faster, a delay and a
// right-half-plane zero take phase.
func TestDirections(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		p, a := currentMode(), gmAmplifier()
		p.RightZero = none
		a.Resistor = of(size(t, "resistor", 3e3, 2e4), "Ω")
		before, err := Margins(p, a)
		if err != nil {
			t.Fatal(err)
		}
		more := size(t, "more", 1.01, 1.5)
		faster := p
		faster.Gain = p.Gain.Mul(units.Number(more))
		after, err := Margins(faster, a)
		if err != nil {
			t.Fatal(err)
		}
		if !before.Crossover.Less(after.Crossover) || math.Abs(before.GainMargin.Sub(after.GainMargin).SI()-20*math.Log10(more)) > 1e-6 || before.Turning.SI() != after.Turning.SI() {
			t.Fatalf("%g times the gain makes %+v of %+v", more, after, before)
		}
		late := p
		late.Delay = p.Delay.Add(of(size(t, "delay", 1e-9, 3e-7), "s"))
		after, err = Margins(late, a)
		if err != nil {
			t.Fatal(err)
		}
		if !after.PhaseMargin.Less(before.PhaseMargin) || !after.GainMargin.Less(before.GainMargin) || math.Abs(after.Crossover.SI()/before.Crossover.SI()-1) > 1e-9 {
			t.Fatalf("a delay makes %+v of %+v", after, before)
		}
		right := p
		right.RightZero = of(size(t, "right zero", 1e5, 1e7), "Hz")
		after, err = Margins(right, a)
		if err != nil {
			t.Fatal(err)
		}
		if !after.PhaseMargin.Less(before.PhaseMargin) || !before.Crossover.Less(after.Crossover) {
			t.Fatalf("a right zero makes %+v of %+v", after, before)
		}
	})
}
