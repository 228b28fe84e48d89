package ripple

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Section is one section of a filter: in series a resistance and an
// inductance, across what follows a capacitance, and a second one that damps.
type Section struct {
	Resistance  units.Quantity // in series, the inductor's winding with it, Ω; left out: none
	Inductance  units.Quantity // in series, H; left out: none
	Capacitance units.Quantity // across, F
	ESR         units.Quantity // of the capacitance, Ω; left out: none
	Damping     units.Quantity // a second capacitance across, F; left out: none
	DampingESR  units.Quantity // resistor in series with it, its ESR with it, Ω
}

// FilterInputs are the arguments of Filter.
type FilterInputs struct {
	Source    units.Quantity // resistance of the source, Ω; left out: none
	Sections  []Section      // from the source to the load, at most 8
	Load      units.Quantity // across the output, Ω; left out: none
	Frequency units.Quantity // of what is to be filtered, Hz
}

// FilterResult is what Filter finds.
type FilterResult struct {
	After         []units.Quantity // what is left behind each section at Frequency, no unit
	Transfer      units.Quantity   // behind the last, no unit
	Attenuation   units.Quantity   // behind the last, dB: below zero where the filter makes it larger
	Direct        units.Quantity   // what is left of a direct voltage, no unit
	PeakTransfer  units.Quantity   // largest, over all frequencies, no unit
	PeakFrequency units.Quantity   // where, Hz; zero where nothing is above Direct
	Peaking       units.Quantity   // of PeakTransfer over Direct, dB
}

// Filter computes a chain of filter sections, each loaded by those behind it,
// with their losses and damping, and searches for the frequency at which it
// lets through most.
//
//	source ── resistance ── inductance ──┬──────────┬────── next section … load
//	                                capacitance  damping
//	                                    ESR     its ESR
//	source ──────────────────────────────┴──────────┴──────
//
//	from the load to the source, with s = j · 2π · frequency:
//	current += voltage · (1/(ESR + 1/(s · capacitance)) + 1/(damping ESR + 1/(s · damping)))
//	voltage += current · (resistance + s · inductance)
//	Transfer    = 1/|voltage at the source| for 1 at the load
//	Attenuation = −20 dB · lg(Transfer)
//	Peaking     = 20 dB · lg(PeakTransfer/Direct)
//
// Arguments: Frequency, Hz, above zero; one to eight Sections, each with
// Capacitance, F, above zero, a Resistance, Ω, or Inductance, H, above zero
// (the first section may have Source instead), ESR, Ω, not below zero, and
// with Damping, F, also DampingESR, Ω, above zero; Source, Ω, not below zero;
// Load, Ω, above zero or left out. It is an error outside of that.
//
//	f, err := ripple.Filter(ripple.FilterInputs{
//		Sections: []ripple.Section{
//			{Inductance: 10µH, Capacitance: 10µF, Damping: 47µF, DampingESR: 0.45Ω},
//			{Resistance: 1Ω, Capacitance: 100nF},
//		},
//		Load: 10Ω, Frequency: 400kHz,
//	})
//	// times the ripple before it, f.Transfer is the ripple behind it
//
// Holds for sines; of a ripple of another form compute each harmonic, or take
// the fundamental, which is filtered least. The search takes the frequencies
// around the resonances and corners of the sections: peaks that are narrower
// than a hundredth of their frequency it finds to that width only.
//
// Source: Kirchhoff's laws with complex impedances.
//
// Caution: the product of the sections by themselves is not the chain: a
// section loads the one before it. Parasitic capacitance of inductors and
// inductance of capacitors end what a filter does, often above a few
// megahertz.
func Filter(in FilterInputs) (FilterResult, error) {
	const function = "ripple.Filter"
	source := argument.Resistance.OrZero(in.Source)
	if err := argument.First(function,
		argument.Resistance.NotNegative("Source", source),
		argument.Count("the number of Sections", len(in.Sections), 1, 8, "write each section once"),
		argument.Resistance.Optional("Load", in.Load),
		argument.Frequency.Positive("Frequency", in.Frequency),
	); err != nil {
		return FilterResult{}, err
	}
	one := units.Number(1)
	conductance := argument.Transconductance.OrZero(none)
	if argument.Given(in.Load) {
		conductance = one.Div(in.Load)
	}
	args := []units.Quantity{in.Frequency, source, conductance}
	for k, s := range in.Sections {
		if err := argument.First(fmt.Sprintf("%s: section %d", function, k+1), s.check(k == 0 && argument.Given(in.Source))); err != nil {
			return FilterResult{}, err
		}
		args = append(args,
			argument.Resistance.OrZero(s.Resistance), argument.Inductance.OrZero(s.Inductance),
			s.Capacitance, argument.Resistance.OrZero(s.ESR),
			argument.Capacitance.OrZero(s.Damping), argument.Resistance.OrZero(s.DampingESR),
		)
	}
	where, at, ok := units.Everywhere(func(x []float64) bool { v := ladder(x, x[0])[0]; return 1e-150 < v && v < 1e150 }, args...)
	if !ok {
		if where != "" {
			where = " " + where
		}
		return FilterResult{}, fmt.Errorf("%s: Frequency is %v%s, where the filter has no loss and its output no limit, or lets nothing through that a number holds: give the resistances, or another Frequency", function, at[0], where)
	}
	// Behind section k, of what is in front of the filter.
	behind := func(k int) units.Quantity {
		return units.Lanewise("the transfer", one, func(x []float64) float64 {
			v := ladder(x, x[0])
			return v[k] / v[0]
		}, args...)
	}
	var after []units.Quantity
	for k := range in.Sections {
		after = append(after, behind(k+1))
	}
	transfer := after[len(after)-1]
	direct := units.Lanewise("the transfer of a direct voltage", one, directly, args...)
	found := map[string][2]float64{}
	search := func(x []float64, k int) float64 {
		key := fmt.Sprint(x)
		if _, ok := found[key]; !ok {
			found[key] = largest(x)
		}
		return found[key][k]
	}
	peakTransfer := units.Lanewise("the largest transfer", one, func(x []float64) float64 { return search(x, 0) }, args...)
	peakFrequency := units.Lanewise("the frequency of the largest transfer", in.Frequency, func(x []float64) float64 { return search(x, 1) }, args...)
	return FilterResult{
		After:         after,
		Transfer:      transfer,
		Attenuation:   units.VoltageGain(one.Div(transfer)),
		Direct:        direct,
		PeakTransfer:  peakTransfer,
		PeakFrequency: peakFrequency,
		Peaking:       units.VoltageGain(peakTransfer.Div(direct)),
	}, nil
}

func (s Section) check(behindSource bool) error {
	for _, err := range []error{
		argument.Resistance.NotNegative("Resistance", argument.Resistance.OrZero(s.Resistance)),
		argument.Inductance.NotNegative("Inductance", argument.Inductance.OrZero(s.Inductance)),
		argument.Capacitance.Positive("Capacitance", s.Capacitance),
		argument.Resistance.NotNegative("ESR", argument.Resistance.OrZero(s.ESR)),
		argument.Capacitance.Optional("Damping", s.Damping),
		argument.Resistance.Optional("DampingESR", s.DampingESR),
	} {
		if err != nil {
			return err
		}
	}
	if argument.Given(s.Damping) {
		if err := argument.Resistance.Positive("DampingESR", s.DampingESR); err != nil {
			return err
		}
	}
	if !argument.Given(s.Resistance) && !argument.Given(s.Inductance) && !behindSource {
		return fmt.Errorf("neither Resistance nor Inductance is given: without either a section filters nothing; write what stands in series")
	}
	return nil
}
