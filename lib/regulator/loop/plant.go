package loop

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Plant is what the control voltage, which the error amplifier gives, does to
// the output.
//
//	plant(s) = Gain · Π(1 + s/zero) · (1 − s/RightZero) · e^(−s · Delay)
//	         / (Π(1 + s/pole) · pair(Resonance, Quality) · pair(Frequency/2, SamplingQuality))
//	pair(ω, Q) = 1 + s/(ω · Q) + s²/ω²
//
// with each frequency f as ω = 2πf. A sign that the power part turns around
// is left to the amplifier, which turns it back.
type Plant struct {
	Gain            units.Quantity   // at low frequency, output per control voltage, no unit
	Frequency       units.Quantity   // of switching, Hz
	Poles           []units.Quantity // Hz; left out: none
	Zeros           []units.Quantity // in the left half plane, as an ESR makes, Hz; left out: none
	RightZero       units.Quantity   // in the right half plane, Hz; left out: none
	Resonance       units.Quantity   // of a pair of poles, Hz; left out: none
	Quality         units.Quantity   // of Resonance, no unit; two real poles are below 0.5
	SamplingQuality units.Quantity   // of the pair at half the switching frequency that sampling makes, no unit; left out: none
	Delay           units.Quantity   // of comparator, logic and driver, s; left out: none
}

func (p Plant) check() error {
	checks := []error{
		argument.Share.Positive("Gain", p.Gain),
		argument.Frequency.Positive("Frequency", p.Frequency),
		argument.Frequency.Optional("RightZero", p.RightZero),
		argument.Frequency.Optional("Resonance", p.Resonance),
		argument.Share.Optional("Quality", p.Quality),
		argument.Share.Optional("SamplingQuality", p.SamplingQuality),
		argument.Time.NotNegative("Delay", argument.Time.OrZero(p.Delay)),
	}
	for i, pole := range p.Poles {
		checks = append(checks, argument.Frequency.Positive(fmt.Sprintf("Poles[%d]", i), pole))
	}
	for i, zero := range p.Zeros {
		checks = append(checks, argument.Frequency.Positive(fmt.Sprintf("Zeros[%d]", i), zero))
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	if argument.Given(p.Resonance) != argument.Given(p.Quality) {
		return fmt.Errorf("of Resonance and Quality one is given; a pair of poles needs both: give the other, or leave out both")
	}
	return nil
}

// values are the quantities of a plant in the order of circuitOf.
func (p Plant) values() []units.Quantity {
	frequency, share := argument.Frequency, argument.Share
	values := []units.Quantity{
		p.Gain, p.Frequency, frequency.OrZero(p.RightZero), frequency.OrZero(p.Resonance), share.OrZero(p.Quality),
		share.OrZero(p.SamplingQuality), argument.Time.OrZero(p.Delay),
	}
	return append(append(values, p.Poles...), p.Zeros...)
}
