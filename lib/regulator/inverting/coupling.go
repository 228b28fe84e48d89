package inverting

import (
	"errors"

	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/switching"
	"ohmwright/units"
)

// CouplingRippleInputs are the arguments of CouplingRipple.
type CouplingRippleInputs struct {
	Stage       Stage          // a SEPIC
	Capacitance units.Quantity // of the coupling capacitor, with its bias, hot and aged, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
}

// CouplingRippleResult is what CouplingRipple finds.
type CouplingRippleResult struct {
	Voltage    units.Quantity // mean across the capacitor, V
	RMS        units.Quantity // current of the capacitor, A
	Charge     units.Quantity // that it takes and gives in each period, C
	Capacitive units.Quantity // ripple that the charge makes, peak to peak, V
	Resistive  units.Quantity // step across the ESR, V
	Total      units.Quantity // sum of the two, V
	Share      units.Quantity // of Voltage that Total is, no unit
	Most       units.Quantity // largest voltage across the capacitor, V
	Heat       units.Quantity // lost in the ESR, W
}

// CouplingRipple computes voltage, current and ripple of a SEPIC's coupling
// capacitor, through which all of the output's power goes.
//
//	Voltage    = input − InputMean · winding + load · second winding
//	RMS        = CouplingRMS
//	Charge     = CouplingCharge
//	Capacitive = Charge/capacitance
//	Resistive  = (Peak + SecondPeak) · ESR
//	Total      = Capacitive + Resistive
//	Share      = Total/Voltage
//	Most       = Voltage + Total/2
//	Heat       = RMS² · ESR
//
// with InputMean as Duty finds it and the currents as Inductors does.
//
// Arguments: Stage, a SEPIC; Capacitance, F, above zero; ESR, Ω, not below
// zero. It is an error outside of that.
//
//	c, err := inverting.CouplingRipple(inverting.CouplingRippleInputs{Stage: sepic, Capacitance: 10µF, ESR: 3mΩ})
//	Require(c.Share <= 5%, "ramps stay straight")
//
// Give Input as a range: current and ripple are largest at its low end, the
// voltage at its high end. Common practice is a ripple of 1 % to 5 % of the
// voltage; all of this package holds for that.
//
// Source: SLYT309 (Texas Instruments, Designing DC/DC converters based on
// SEPIC topology), from memory, for load · √(Duty/(1 − Duty)) and load ·
// Duty/(capacitance · frequency), which leave out the inductors' ripple;
// Kirchhoff's voltage law for Voltage.
//
// Caution: a ceramic capacitor of class 2 has the input as its bias and loses
// capacitance with it; an electrolytic one rarely stands the current.
func CouplingRipple(in CouplingRippleInputs) (CouplingRippleResult, error) {
	const function = "inverting.CouplingRipple"
	esr := argument.Resistance.OrZero(in.ESR)
	if err := argument.First(function,
		in.Stage.twoInductors(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.NotNegative("ESR", esr),
	); err != nil {
		return CouplingRippleResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return CouplingRippleResult{}, argument.Within(function, err)
	}
	d, l := in.Stage.duty(), in.Stage.inductors(c)
	p := in.Stage.parts()
	firstDrop := d.InputMean.Mul(p.winding)
	secondDrop := in.Stage.Load.Mul(p.second)
	voltage := in.Stage.Input.Sub(firstDrop).Add(secondDrop)
	capacitive := l.CouplingCharge.Div(in.Capacitance)
	resistive := l.Peak.Add(l.SecondPeak).Mul(esr)
	total := capacitive.Add(resistive)
	return CouplingRippleResult{
		Voltage:    voltage,
		RMS:        l.CouplingRMS,
		Charge:     l.CouplingCharge,
		Capacitive: capacitive,
		Resistive:  resistive,
		Total:      total,
		Share:      total.Div(voltage),
		Most:       voltage.Add(total.Mul(units.Number(0.5))),
		Heat:       l.CouplingRMS.Mul(l.CouplingRMS).Mul(esr),
	}, nil
}

// CouplingCapacitorInputs are the arguments of CouplingCapacitor.
type CouplingCapacitorInputs struct {
	Stage      Stage          // a SEPIC, Load above zero
	Capacitive units.Quantity // ripple allowed to the capacitance, peak to peak, V
}

// CouplingCapacitorResult is what CouplingCapacitor finds.
type CouplingCapacitorResult struct {
	RMS         units.Quantity // current of the capacitor, A
	Charge      units.Quantity // that it takes and gives in each period, C
	Capacitance units.Quantity // at least, F
}

// CouplingCapacitor finds the least coupling capacitance that keeps its ripple
// within what is allowed.
//
//	Capacitance = Charge/capacitive
//
// with Charge as CouplingRipple finds it.
//
// Arguments: Stage, a SEPIC, of which Load, A, is above zero here; Capacitive,
// V, above zero. It is an error outside of that.
//
//	c, err := inverting.CouplingCapacitor(inverting.CouplingCapacitorInputs{Stage: sepic, Capacitive: 0.3V})
//
// Where it holds, source and cautions: as CouplingRipple.
func CouplingCapacitor(in CouplingCapacitorInputs) (CouplingCapacitorResult, error) {
	const function = "inverting.CouplingCapacitor"
	if err := argument.First(function,
		in.Stage.twoInductors(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Voltage.Positive("Capacitive", in.Capacitive),
	); err != nil {
		return CouplingCapacitorResult{}, err
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return CouplingCapacitorResult{}, argument.Within(function, err)
	}
	l := in.Stage.inductors(c)
	return CouplingCapacitorResult{RMS: l.CouplingRMS, Charge: l.CouplingCharge, Capacitance: l.CouplingCharge.Div(in.Capacitive)}, nil
}

// CouplingResonanceInputs are the arguments of CouplingResonance.
type CouplingResonanceInputs struct {
	Stage       Stage          // a SEPIC, Load above zero
	Capacitance units.Quantity // of the coupling capacitor, with its bias, F
	Leakage     units.Quantity // of Coupled inductors: inductance of one winding with the other shorted, H
	Damping     units.Quantity // capacitance of a damping branch across it, F; left out: four times Capacitance
}

// CouplingResonanceResult is what CouplingResonance finds.
type CouplingResonanceResult struct {
	Inductance      units.Quantity // that resonates with the capacitor, H
	Resonance       units.Quantity // Hz
	Characteristic  units.Quantity // impedance of the two, Ω
	FrequencyRatio  units.Quantity // of switching over Resonance, no unit
	Circulating     units.Quantity // ripple that the capacitor's drives around the windings, peak to peak, A; Coupled only, else 0
	DampingResistor units.Quantity // in series with Damping, that damps best, Ω
}

// CouplingResonance computes where the coupling capacitor resonates with the
// inductors of a SEPIC, and the resistor that damps it in series with a
// capacitor across it.
//
//	1/Inductance    = (1 − Duty)²/first + Duty²/second
//	Resonance       = 1/(2π · √(Inductance · capacitance))
//	Characteristic  = √(Inductance/capacitance)
//	FrequencyRatio  = frequency/Resonance
//	DampingResistor = Characteristic · √((2 + n) · (4 + 3 · n)/(2 · n² · (4 + n))), n = damping/capacitance
//
// of two inductors of their own; of two equal ones, at a duty of a half,
// Inductance is the sum of both. Coupled inductors, with M what they have in common,
//
//	M             = √(inductance · (inductance − leakage))
//	1/Inductance  = 1/(2 · (inductance − M)) + (1 − 2 · Duty)²/(2 · (inductance + M))
//	Circulating   = Capacitive/(16 · frequency · (inductance − M))
//
// with Capacitive as CouplingRipple finds it: the windings' voltages differ by
// the capacitor's ripple, which the leakage alone holds.
//
// Arguments: Stage, a SEPIC, of which Load, A, is above zero here;
// Capacitance, F, above zero; Leakage, H, above zero and below Inductance of
// Coupled inductors, left out of others; Damping, F, at least a hundredth and
// at most a thousand times Capacitance. It is an error outside of that, and
// where Resonance is not below the switching frequency: then no ramp is
// straight.
//
//	r, err := inverting.CouplingResonance(inverting.CouplingResonanceInputs{Stage: sepic, Capacitance: 4.7µF})
//	Require(r.FrequencyRatio >= 5, "the coupling capacitor is large enough")
//
// Holds for the average over a period, with a stiff input and output, in
// continuous conduction.
//
// Source: the average of the equations of both inductors and the capacitor
// (Erickson and Maksimović, Fundamentals of Power Electronics, chapter 7, from
// memory); damping as switching.InputFilter.
//
// Caution: with a small loss this resonance rings at every step of the load
// and turns the phase of the loop by half a turn: keep the crossover well
// below it, or damp it. Coupled inductors move it up to where it harms little,
// but then their leakage must not be too small either: Circulating heats both
// windings, and a coupling capacitor large enough is the remedy.
func CouplingResonance(in CouplingResonanceInputs) (CouplingResonanceResult, error) {
	const function = "inverting.CouplingResonance"
	if err := argument.First(function,
		in.Stage.twoInductors(),
		argument.Current.Positive("Load", in.Stage.Load),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Capacitance.Optional("Damping", in.Damping),
		in.Stage.leakage(in.Leakage),
	); err != nil {
		return CouplingResonanceResult{}, err
	}
	damping := in.Capacitance.Mul(units.Number(4))
	if argument.Given(in.Damping) {
		damping = in.Damping
	}
	c, err := in.Stage.cycle()
	if err != nil {
		return CouplingResonanceResult{}, argument.Within(function, err)
	}
	one, two, sixteen := units.Number(1), units.Number(2), units.Number(16)
	offShare := one.Sub(c.Duty)
	upper := offShare.Mul(offShare).Div(in.Stage.Inductance)
	lower := c.Duty.Mul(c.Duty).Div(in.Stage.second())
	inductance := one.Div(upper.Add(lower))
	circulating := c.Ripple.Sub(c.Ripple)
	if in.Stage.Coupled {
		winding := in.Stage.Inductance
		differential := in.Leakage.Div(one.Add(units.Sqrt(one.Sub(in.Leakage.Div(winding))))) // inductance − M
		common := two.Mul(winding).Sub(differential)                                          // inductance + M
		unequal := one.Sub(two.Mul(c.Duty))
		inductance = two.Div(one.Div(differential).Add(unequal.Mul(unequal).Div(common)))
		charge := in.Stage.inductors(c).CouplingCharge
		circulating = charge.Div(in.Capacitance).Div(sixteen.Mul(in.Stage.Frequency).Mul(differential))
	}
	resonance := one.Div(two.Mul(units.Pi).Mul(units.Sqrt(inductance.Mul(in.Capacitance))))
	if err := argument.First(function,
		argument.Under("Resonance", resonance, "the switching frequency", in.Stage.Frequency, "the coupling capacitor does not hold its voltage over a period; raise Capacitance"),
	); err != nil {
		return CouplingResonanceResult{}, err
	}
	f, err := switching.InputFilter(switching.InputFilterInputs{
		Input: in.Stage.Input, Power: in.Stage.size().Mul(in.Stage.Load), Frequency: in.Stage.Frequency,
		Inductance: inductance, Capacitance: in.Capacitance, Damping: damping,
	})
	if err != nil {
		return CouplingResonanceResult{}, argument.Within(function, err)
	}
	return CouplingResonanceResult{
		Inductance:      inductance,
		Resonance:       resonance,
		Characteristic:  f.Characteristic,
		FrequencyRatio:  in.Stage.Frequency.Div(resonance),
		Circulating:     circulating,
		DampingResistor: f.BestResistance,
	}, nil
}

// leakage refuses one that two inductors of their own do not have, and one
// that leaves Coupled ones nothing in common.
func (s Stage) leakage(x units.Quantity) error {
	if !s.Coupled {
		if argument.Given(x) {
			return errors.New("Leakage is given, but the inductors are not Coupled: leave it out, or set Coupled")
		}
		return nil
	}
	for _, err := range []error{argument.Inductance.Positive("Inductance", s.Inductance), argument.Inductance.Positive("Leakage", x)} {
		if err != nil {
			return err
		}
	}
	return argument.Under("Leakage", x, "Inductance", s.Inductance, "such windings have nothing in common; write the inductance of one winding with the other shorted")
}
