package divider

import (
	"fmt"
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Every message of the package, exactly, and for each check one argument
// that meets it.
func TestRefusals(t *testing.T) {
	t.Parallel()
	e := func(_ any, err error) error { return err }
	var none units.Quantity
	feedback := func(f func(FeedbackInputs) (FeedbackResult, error), reference, output, upper, lower, pin units.Quantity) error {
		_, err := f(FeedbackInputs{reference, output, upper, lower, pin})
		return err
	}
	measuring := MeasuringInputs{Input: q("32 V"), Upper: q("100 kΩ"), Lower: q("10 kΩ"), Reference: q("3.3 V"), Bits: 12}
	measure := func(change func(*MeasuringInputs)) error {
		in := measuring
		change(&in)
		return e(Measuring(in))
	}
	reservoir := ReservoirInputs{Reference: q("3.3 V"), Bits: 12, Source: q("9 kΩ"), Reservoir: q("100 nF"), Sampling: q("14 pF"), Period: q("1 ms")}
	sample := func(change func(*ReservoirInputs)) error {
		in := reservoir
		change(&in)
		return e(ReservoirSampling(in))
	}
	for _, test := range []struct {
		name string
		err  error
		want string
	}{
		{"zero lower", e(Plain(q("12 V"), q("10 kΩ"), q("0 Ω"))), "divider.Plain: lower is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"zero upper", e(Plain(q("12 V"), q("0 Ω"), q("10 kΩ"))), "divider.Plain: upper is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"negative upper", e(Plain(q("12 V"), q("-10 kΩ"), q("10 kΩ"))), "divider.Plain: upper is −10 kΩ; it must be above 0 Ω: check its sign and the formula it comes from"},
		{"constant zero", e(Plain(q("12 V"), q("10 kΩ"), none)), "divider.Plain: lower is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},
		{"plain number", e(Plain(q("12 V"), q("10 kΩ"), units.Number(3300))), "divider.Plain: lower is 3300; it must be a resistance: write it in Ω, such as 10 kΩ"},
		{"arguments exchanged", e(Plain(q("10 kΩ"), q("12 V"), q("10 kΩ"))), "divider.Plain: input is 10 kΩ; it must be a voltage: write it in V, such as 3.3 V"},
		{"sheet resistance", e(Plain(q("12 V"), q("10 Ω/sq"), q("10 kΩ"))), "divider.Plain: upper is 10 Ω/sq; it must be a resistance: write it in Ω, such as 10 kΩ"},
		{"level", e(Plain(q("0 dBV"), q("10 kΩ"), q("10 kΩ"))), "divider.Plain: input is 0 dBV; it must be a voltage: write it in V, such as 3.3 V"},
		{"input not given", e(Plain(none, q("10 kΩ"), q("10 kΩ"))), "divider.Plain: input is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"infinite", e(Plain(q("12 V"), q("10 kΩ").Mul(units.Number(math.Inf(1))), q("10 kΩ"))), "divider.Plain: upper is ∞ Ω; its size must be between 1e-30 Ω and 1e30 Ω: check its prefix and the formula it comes from"},
		{"not a number", e(Plain(q("12 V").Mul(units.Number(math.NaN())), q("10 kΩ"), q("10 kΩ"))), "divider.Plain: input is not a number: check the formula it comes from"},
		{"not a positive number", e(Plain(q("12 V"), q("10 kΩ").Mul(units.Number(math.NaN())), q("10 kΩ"))), "divider.Plain: upper is NaN Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"huge", e(Plain(q("12 V"), q("1e31 Ω"), q("10 kΩ"))), "divider.Plain: upper is 1e19 TΩ; its size must be between 1e-30 Ω and 1e30 Ω: check its prefix and the formula it comes from"},
		{"tiny", e(Plain(q("12 V"), q("1e-31 Ω"), q("10 kΩ"))), "divider.Plain: upper is 1e-16 fΩ; its size must be between 1e-30 Ω and 1e30 Ω: check its prefix and the formula it comes from"},
		{"huge negative", e(Plain(q("-1e31 V"), q("1 Ω"), q("10 kΩ"))), "divider.Plain: input is −1e19 TV; its size must be between 1e-30 V and 1e30 V: check its prefix and the formula it comes from"},

		{"loaded by a short", e(Loaded(LoadedInputs{Input: q("12 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), LoadResistance: q("0 Ω")})), "divider.Loaded: LoadResistance is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"loaded too much", e(Loaded(LoadedInputs{Input: q("12 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), LoadCurrent: q("1.3 mA")})), "divider.Loaded: LoadCurrent is 1.3 mA; it must not be above 1.2 mA, which is Input/Upper: lower the resistors or the load"},
		{"load of another kind", e(Loaded(LoadedInputs{Input: q("12 V"), Upper: q("10 kΩ"), Lower: q("10 kΩ"), LoadCurrent: q("1 V")})), "divider.Loaded: LoadCurrent is 1 V; it must be a current: write it in A, such as 1 mA"},
		{"loaded without upper", e(Loaded(LoadedInputs{Input: q("12 V"), Lower: q("10 kΩ")})), "divider.Loaded: Upper is not given, or is the bare number 0: write its resistance, such as 10 kΩ"},

		{"upper given", feedback(FeedbackUpper, q("0.8 V"), q("5 V"), q("10 kΩ"), q("10 kΩ"), none), "divider.FeedbackUpper: Upper is 10 kΩ, but this function finds it: leave it out, or use FeedbackOutput to see what it makes"},
		{"lower given", feedback(FeedbackLower, q("0.8 V"), q("5 V"), q("10 kΩ"), q("10 kΩ"), none), "divider.FeedbackLower: Lower is 10 kΩ, but this function finds it: leave it out, or use FeedbackOutput to see what it makes"},
		{"output given", feedback(FeedbackOutput, q("0.8 V"), q("5 V"), q("10 kΩ"), q("10 kΩ"), none), "divider.FeedbackOutput: Output is 5 V, but this function finds it: leave it out, or use FeedbackUpper or FeedbackLower to find a resistor for it"},
		{"upper below reference", feedback(FeedbackUpper, q("0.8 V"), q("0.5 V"), none, q("10 kΩ"), none), "divider.FeedbackUpper: Output is 500 mV; it must not be below Reference, 800 mV: a divider only sets outputs above the reference; choose a regulator with a lower one"},
		{"lower at reference", feedback(FeedbackLower, q("0.8 V"), q("0.8 V"), q("10 kΩ"), none, none), "divider.FeedbackLower: Output is 800 mV; it must be above Reference, 800 mV: at the reference itself no lower resistor is needed, and below it a divider cannot go"},
		{"upper, zero lower", feedback(FeedbackUpper, q("0.8 V"), q("5 V"), none, q("0 Ω"), none), "divider.FeedbackUpper: Lower is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"upper, no reference", feedback(FeedbackUpper, none, q("5 V"), none, q("10 kΩ"), none), "divider.FeedbackUpper: Reference is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
		{"upper, pin takes all", feedback(FeedbackUpper, q("0.8 V"), q("5 V"), none, q("10 kΩ"), q("-80 µA")), "divider.FeedbackUpper: PinCurrent is −80 µA; out of the pin it must be smaller than 80 µA, which flows through Lower: choose a smaller lower resistor"},
		{"output, pin takes all", feedback(FeedbackOutput, q("0.8 V"), none, q("10 kΩ"), q("10 kΩ"), q("-90 µA")), "divider.FeedbackOutput: PinCurrent is −90 µA; out of the pin it must be smaller than 80 µA, which flows through Lower: choose a smaller lower resistor"},
		{"lower, pin takes all", feedback(FeedbackLower, q("0.8 V"), q("5 V"), q("10 kΩ"), none, q("420 µA")), "divider.FeedbackLower: PinCurrent is 420 µA; it must be below 420 µA, which flows through Upper: choose a smaller upper resistor"},
		{"negative reference", feedback(FeedbackOutput, q("-0.8 V"), none, q("10 kΩ"), q("10 kΩ"), none), "divider.FeedbackOutput: Reference is −800 mV; it must be above 0 V: check its sign and the formula it comes from"},

		{"measuring below reference", e(MeasuringUpper(q("3 V"), q("3.3 V"), q("10 kΩ"))), "divider.MeasuringUpper: largest is 3 V; it must be above reference, 3.3 V: connect it without a divider, or choose a lower reference"},
		{"measuring at reference", e(MeasuringUpper(q("3.3 V"), q("3.3 V"), q("10 kΩ"))), "divider.MeasuringUpper: largest is 3.3 V; it must be above reference, 3.3 V: connect it without a divider, or choose a lower reference"},
		{"measuring zero lower", e(MeasuringUpper(q("32 V"), q("3.3 V"), q("0 Ω"))), "divider.MeasuringUpper: lower is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"no bits", measure(func(in *MeasuringInputs) { in.Bits = 0 }), "divider.Measuring: Bits is 0; it must be from 1 to 32: write the converter's number of bits, such as 12"},
		{"many bits", measure(func(in *MeasuringInputs) { in.Bits = 4096 }), "divider.Measuring: Bits is 4096; it must be from 1 to 32: write the converter's number of bits, such as 12"},
		{"negative leakage", measure(func(in *MeasuringInputs) { in.Leakage = q("-100 nA") }), "divider.Measuring: Leakage is −100 nA; it must not be below 0 A: check its sign and the formula it comes from"},
		{"zero input", measure(func(in *MeasuringInputs) { in.Input = q("0 V") }), "divider.Measuring: Input is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},
		{"zero reference", measure(func(in *MeasuringInputs) { in.Reference = q("0 V") }), "divider.Measuring: Reference is 0 V; it must be above 0 V: write its voltage, such as 3.3 V"},
		{"zero measuring resistor", measure(func(in *MeasuringInputs) { in.Lower = q("0 Ω") }), "divider.Measuring: Lower is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},

		{"filter without capacitor", e(Filter(q("9 kΩ"), q("0 F"), 12)), "divider.Filter: capacitor is 0 F; it must be above 0 F: write its capacitance, such as 100 nF"},
		{"filter arguments exchanged", e(Filter(q("100 nF"), q("9 kΩ"), 12)), "divider.Filter: source is 100 nF; it must be a resistance: write it in Ω, such as 10 kΩ"},
		{"direct with time", e(DirectSampling(DirectInputs{Source: q("9 kΩ"), Sampling: q("14 pF"), Bits: 12, Time: q("1 µs")})), "divider.DirectSampling: Time is 1 µs, but this function finds it: leave it out, or use LargestSource to find the source for it"},
		{"direct without capacitor", e(DirectSampling(DirectInputs{Source: q("9 kΩ"), Bits: 12})), "divider.DirectSampling: Sampling is not given, or is the bare number 0: write its capacitance, such as 100 nF"},
		{"direct negative switch", e(DirectSampling(DirectInputs{Source: q("9 kΩ"), Switch: q("-1 kΩ"), Sampling: q("14 pF"), Bits: 12})), "divider.DirectSampling: Switch is −1 kΩ; it must not be below 0 Ω: check its sign and the formula it comes from"},
		{"largest source with source", e(LargestSource(DirectInputs{Source: q("9 kΩ"), Sampling: q("14 pF"), Bits: 12, Time: q("1 µs")})), "divider.LargestSource: Source is 9 kΩ, but this function finds it: leave it out, or use DirectSampling to find the time for it"},
		{"largest source too fast", e(LargestSource(DirectInputs{Switch: q("10 kΩ"), Sampling: q("14 pF"), Bits: 12, Time: q("1 µs")})), "divider.LargestSource: Time is 1 µs; it must be above 1.262 µs, which the switch alone takes: lengthen the acquisition time"},
		{"no reservoir", sample(func(in *ReservoirInputs) { in.Reservoir = q("0 F") }), "divider.ReservoirSampling: Reservoir is 0 F; it must be above 0 F: write its capacitance, such as 100 nF"},
		{"no period", sample(func(in *ReservoirInputs) { in.Period = none }), "divider.ReservoirSampling: Period is not given, or is the bare number 0: write its time, such as 10 µs"},
		{"reservoir without source", sample(func(in *ReservoirInputs) { in.Source = q("0 Ω") }), "divider.ReservoirSampling: Source is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},

		{"clamp zero upper", e(Clamp(ClampInputs{Input: q("60 V"), Upper: q("0 Ω"), Lower: q("10 kΩ"), Level: q("3.6 V")})), "divider.Clamp: Upper is 0 Ω; it must be above 0 Ω: write its resistance, such as 10 kΩ"},
		{"clamp negative input", e(Clamp(ClampInputs{Input: q("-60 V"), Upper: q("1 kΩ"), Lower: q("10 kΩ"), Level: q("3.6 V")})), "divider.Clamp: Input is −60 V; it must be above 0 V: check its sign and the formula it comes from"},
		{"clamp without level", e(Clamp(ClampInputs{Input: q("60 V"), Upper: q("1 kΩ"), Lower: q("10 kΩ")})), "divider.Clamp: Level is not given, or is the bare number 0: write its voltage, such as 3.3 V"},
	} {
		expect.Message(t, test.name, test.err, test.want)
	}
}

// Whatever the arguments, no function panics, and a result without an error
// holds finite numbers only.
func TestNothingInfiniteLeaves(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		quantity, _ := expect.Manner(t)
		v := func(name string) units.Quantity { return quantity(name, "V") }
		r := func(name string) units.Quantity { return quantity(name, "Ω") }
		bits := rapid.IntRange(-1, 33).Draw(t, "bits")
		feedback := FeedbackInputs{Reference: v("reference"), Output: v("output"), PinCurrent: quantity("pin", "A")}
		withUpper, withLower := feedback, feedback
		withUpper.Upper, withLower.Lower = r("upper"), r("lower")
		both := FeedbackInputs{Reference: v("reference"), Upper: r("upper"), Lower: r("lower"), PinCurrent: quantity("pin", "A")}
		direct := DirectInputs{Switch: r("switch"), Sampling: quantity("sampling", "F"), Bits: bits}
		withSource, withTime := direct, direct
		withSource.Source, withTime.Time = r("source"), quantity("time", "s")
		for i, c := range []func() (any, error){
			func() (any, error) { return box(Plain(v("input"), r("upper"), r("lower"))) },
			func() (any, error) {
				return box(Loaded(LoadedInputs{v("input"), r("upper"), r("lower"), r("load"), quantity("current", "A")}))
			},
			func() (any, error) { return box(FeedbackUpper(withLower)) },
			func() (any, error) { return box(FeedbackLower(withUpper)) },
			func() (any, error) { return box(FeedbackOutput(both)) },
			func() (any, error) { return box(MeasuringUpper(v("largest"), v("reference"), r("lower"))) },
			func() (any, error) {
				return box(Measuring(MeasuringInputs{v("input"), r("upper"), r("lower"), v("reference"), bits, quantity("leakage", "A")}))
			},
			func() (any, error) { return box(Filter(r("source"), quantity("capacitor", "F"), bits)) },
			func() (any, error) { return box(DirectSampling(withSource)) },
			func() (any, error) { return box(LargestSource(withTime)) },
			func() (any, error) {
				return box(ReservoirSampling(ReservoirInputs{v("reference"), bits, r("source"), quantity("reservoir", "F"), quantity("sampling", "F"), quantity("period", "s")}))
			},
			func() (any, error) { return box(Clamp(ClampInputs{v("input"), r("upper"), r("lower"), v("level")})) },
		} {
			expect.Finite(t, fmt.Sprint("call ", i), c)
		}
	})
}

func box[T any](x T, err error) (any, error) { return x, err }
