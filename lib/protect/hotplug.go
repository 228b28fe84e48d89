package protect

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// HotPlugInputs are the arguments of HotPlug.
type HotPlugInputs struct {
	Supply            units.Quantity // voltage that is plugged in, V
	Inductance        units.Quantity // of the cable, there and back, H
	Resistance        units.Quantity // of cable, contacts and ceramic capacitor, Ω
	Capacitance       units.Quantity // ceramic, at the input, with its bias, F
	Damping           units.Quantity // capacitance of a damping branch beside it, F; left out: none
	DampingResistance units.Quantity // in that branch, the ESR with it, Ω
	Limit             units.Quantity // highest voltage that what hangs on it survives, V
}

// HotPlugResult is what HotPlug finds.
type HotPlugResult struct {
	Impedance    units.Quantity // of inductance and capacitance, Ω; about what a damping branch should have
	Resonance    units.Quantity // of the two, Hz
	DampingRatio units.Quantity // that the resistance alone makes; 1 and above: no overshoot, no unit
	PeakCurrent  units.Quantity // into the ceramic capacitor alone, A
	UndampedPeak units.Quantity // voltage without the damping branch, V
	Peak         units.Quantity // voltage with it, V
	Margin       units.Quantity // of Limit above Peak, V; below zero: too high
	Energy       units.Quantity // that the capacitors take, J
	Heat         units.Quantity // in the resistances, as much, J
	LeastDamped  units.Quantity // resistance in series with which nothing overshoots, Ω
}

// HotPlug computes how far the voltage of empty ceramic capacitors shoots
// over when a live supply is plugged in through the inductance of its cable,
// and what a damping branch of a capacitor and a resistance beside them makes
// of it: an electrolytic capacitor with its ESR.
//
//	supply ── inductance ── resistance ──┬────────────┬── input
//	                              capacitance  damping resistance
//	                                     │         damping
//	                                     └────────────┴── ground
//
//	Impedance     = √(inductance/capacitance)
//	Resonance     = 1/(2π · √(inductance · capacitance))
//	DampingRatio  = resistance/(2 · Impedance)
//	PeakCurrent   = supply/Impedance · e^(−ζ · acos ζ/√(1 − ζ²)), with ζ for DampingRatio
//	UndampedPeak  = supply · (1 + e^(−π · ζ/√(1 − ζ²))); supply where ζ ≥ 1
//	Peak          = the largest voltage of the circuit with the damping branch
//	Margin        = limit − Peak
//	Energy        = (capacitance + damping) · supply²/2
//	Heat          = Energy
//	LeastDamped   = 2 · Impedance
//
// Above ζ = 1 the current has acosh ζ/√(ζ² − 1) in place of acos ζ/√(1 − ζ²).
// Peak is found by following the circuit by its matrix exponential, exactly.
//
// Arguments: see HotPlugInputs; all above zero, Damping and its resistance
// given together, Damping from a hundredth to a thousand times Capacitance,
// both resistances from a millionth (the damping resistance: a thousandth) to
// a thousand times Impedance. It is an error outside of that. A Peak above
// Limit is none: Margin is below zero.
//
//	h, err := protect.HotPlug(protect.HotPlugInputs{
//		Supply: 24V, Inductance: 1µH, Resistance: 50mΩ, Capacitance: 10µF, Damping: 47µF, DampingResistance: 0.35Ω, Limit: 40V,
//	})
//
// Holds for a stiff supply, a contact that does not bounce, no load yet, and
// a capacitance that does not change with the voltage. A metre of two wires
// side by side has 0.6 µH to 1 µH.
//
// Source: step response of a series resonant circuit (any textbook); the
// effect as in Linear Technology application note 88, 2001.
//
// Caution: a class 2 ceramic capacitor loses capacitance as it charges and
// overshoots beyond twice the supply. A contact that bounces at the worst
// moment begins anew from a charged capacitor. A capacitor of low ESR as the
// damping does not damp.
func HotPlug(in HotPlugInputs) (HotPlugResult, error) {
	const function = "protect.HotPlug"
	if err := argument.First(function,
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Inductance.Positive("Inductance", in.Inductance),
		argument.Resistance.Positive("Resistance", in.Resistance),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Voltage.Positive("Limit", in.Limit),
	); err != nil {
		return HotPlugResult{}, err
	}
	impedance := units.Sqrt(in.Inductance.Div(in.Capacitance))
	if err := argument.First(function, withinImpedance("Resistance", in.Resistance, impedance, 1e-6)); err != nil {
		return HotPlugResult{}, err
	}
	damped := argument.Given(in.Damping) || argument.Given(in.DampingResistance)
	if damped {
		if err := argument.First(function,
			argument.Capacitance.Positive("Damping", in.Damping),
			argument.Resistance.Positive("DampingResistance", in.DampingResistance),
		); err != nil {
			return HotPlugResult{}, err
		}
		if err := argument.First(function,
			argument.AtLeast("Damping", in.Damping, "a hundredth of Capacitance", in.Capacitance.Mul(units.Number(0.01)), "so little does not damp; raise Damping, usually to four times Capacitance"),
			argument.AtMost("Damping", in.Damping, "a thousand times Capacitance", in.Capacitance.Mul(units.Number(1000)), "beside so much the ceramic one does not count; write what filters as Capacitance"),
			withinImpedance("DampingResistance", in.DampingResistance, impedance, 1e-3),
		); err != nil {
			return HotPlugResult{}, err
		}
	}
	one, two := units.Number(1), units.Number(2)
	resonance := one.Div(two.Mul(units.Pi).Mul(units.Sqrt(in.Inductance.Mul(in.Capacitance))))
	dampingRatio := in.Resistance.Div(two.Mul(impedance))
	currentShare := currentShareOf(dampingRatio)
	peakCurrent := in.Supply.Div(impedance).Mul(currentShare)
	overshoot := overshootShareOf(dampingRatio)
	undampedPeak := in.Supply.Mul(one.Add(overshoot))
	peak := undampedPeak
	bank := in.Capacitance
	if damped {
		height := dampedOvershoot(in.Resistance.Div(impedance), in.Damping.Div(in.Capacitance), in.DampingResistance.Div(impedance))
		peak = in.Supply.Mul(one.Add(height))
		bank = in.Capacitance.Add(in.Damping)
	}
	margin := in.Limit.Sub(peak)
	energy := bank.Mul(in.Supply).Mul(in.Supply).Div(two)
	heat := energy
	leastDamped := two.Mul(impedance)
	return HotPlugResult{
		Impedance:    impedance,
		Resonance:    resonance,
		DampingRatio: dampingRatio,
		PeakCurrent:  peakCurrent,
		UndampedPeak: undampedPeak,
		Peak:         peak,
		Margin:       margin,
		Energy:       energy,
		Heat:         heat,
		LeastDamped:  leastDamped,
	}, nil
}

// withinImpedance checks that a resistance is one that counts beside the
// circuit's impedance.
func withinImpedance(name string, x, impedance units.Quantity, least float64) error {
	return argument.First("the circuit",
		argument.AtLeast(name, x, "a small part of √(L/C)", impedance.Mul(units.Number(least)), "no such circuit has so little; check its prefix"),
		argument.AtMost(name, x, "a thousand times √(L/C)", impedance.Mul(units.Number(1000)), "the inductance does not count then; use CapacitorPulse, or check the prefix"),
	)
}

func currentShareOf(dampingRatio units.Quantity) units.Quantity {
	return units.Lanewise("the peak current", dampingRatio, func(x []float64) float64 { return currentPeak(x[0]) }, dampingRatio)
}

func overshootShareOf(dampingRatio units.Quantity) units.Quantity {
	return units.Lanewise("the overshoot", dampingRatio, func(x []float64) float64 { return overshootOf(x[0]) }, dampingRatio)
}

// currentPeak is the largest current of a series resonant circuit after a
// step, in units of the step over √(L/C): e^(−ζ·φ/sin φ) with cos φ = ζ.
func currentPeak(zeta float64) float64 {
	away := (1 - zeta) * (1 + zeta)
	switch root := math.Sqrt(math.Abs(away)); {
	case math.Abs(away) < 1e-8: // both sides go to 1 at the boundary
		return math.Exp(-zeta * (1 + (1-zeta)/3))
	case away > 0:
		return math.Exp(-zeta * math.Atan2(root, zeta) / root)
	default:
		return math.Exp(-zeta * math.Log(zeta+root) / root)
	}
}

// overshootOf is the overshoot of the voltage of such a circuit, as a share.
func overshootOf(zeta float64) float64 {
	if zeta >= 1 {
		return 0
	}
	return math.Exp(-math.Pi * zeta / math.Sqrt((1-zeta)*(1+zeta)))
}

// dampedOvershoot is the overshoot with a damping branch, as a share; all
// arguments are ratios, to √(L/C) and to the capacitance.
func dampedOvershoot(resistance, damping, branch units.Quantity) units.Quantity {
	return units.Lanewise("the overshoot", resistance, func(x []float64) float64 {
		rho, n, r := x[0], x[1], x[2]
		// Current, voltage and voltage of the damping capacitor, away from where
		// they settle, in units of √(L·C), √(L/C) and the supply.
		circuit := matrix{
			{-rho, -1, 0},
			{1, -1 / r, 1 / r},
			{0, 1 / (r * n), -1 / (r * n)},
		}
		window := 4 * math.Sqrt(1+n)
		return newResponse(circuit, state{0, 1, 0}, window/firstPart).largest(state{0, -1, -1})
	}, resistance, damping, branch)
}

// DampingInputs are the arguments of HotPlugDamping.
type DampingInputs struct {
	Supply      units.Quantity // voltage that is plugged in, V
	Inductance  units.Quantity // of the cable, there and back, H
	Resistance  units.Quantity // of cable, contacts and ceramic capacitor, Ω
	Capacitance units.Quantity // ceramic, at the input, with its bias, F
	Limit       units.Quantity // highest voltage that what hangs on it survives, V
}

// DampingResult is what HotPlugDamping finds.
type DampingResult struct {
	Resistance units.Quantity // of the damping branch, Ω
	Ratio      units.Quantity // of its capacitance to the ceramic one, at least, no unit
	Damping    units.Quantity // its capacitance, at least, F; zero: none is needed
}

// HotPlugDamping finds the least damping branch with which the voltage of
// HotPlug stays at its limit: the inverse of HotPlug.
//
//	Resistance = √(inductance/capacitance)
//	Ratio      = the least with which Peak of HotPlug is limit, 0 where none is needed
//	Damping    = Ratio · capacitance
//
// Arguments: see DampingInputs; all above zero. It is an error outside of
// that, and where even a hundredfold capacitance does not keep the limit.
//
//	d, err := protect.HotPlugDamping(protect.DampingInputs{Supply: 24V, Inductance: 1µH, Resistance: 50mΩ, Capacitance: 10µF, Limit: 36V})
//
// Holds as HotPlug does. The resistance is a good one, not for every Ratio
// the best: one found by trying HotPlug may need a little less.
//
// Source: as HotPlug; the rule for the resistance is common practice.
//
// Caution: an electrolytic capacitor's ESR rises tenfold in the cold; look at
// both ends of it with HotPlug.
func HotPlugDamping(in DampingInputs) (DampingResult, error) {
	const function = "protect.HotPlugDamping"
	plain, err := HotPlug(HotPlugInputs{Supply: in.Supply, Inductance: in.Inductance, Resistance: in.Resistance, Capacitance: in.Capacitance, Limit: in.Limit})
	if err != nil {
		return DampingResult{}, argument.First(function, err)
	}
	one, least, most := units.Number(1), units.Number(0.01), units.Number(100)
	rho := in.Resistance.Div(plain.Impedance)
	peak := func(ratio units.Quantity) units.Quantity {
		return in.Supply.Mul(one.Add(dampedOvershoot(rho, ratio, one)))
	}
	if err := argument.First(function,
		atLeast("Limit", in.Limit, "what a hundredfold damping capacitor leaves", peak(most), "no damping keeps it; shorten the cable, add a clamp or a series resistance, or choose a part that survives more"),
	); err != nil {
		return DampingResult{}, err
	}
	// Where little or nothing is needed, a stand-in keeps the search in its
	// range; the result there is zero.
	light := peak(least)
	goal := units.Min(in.Limit, light)
	found := units.Solve("the damping", least, most, func(ratio units.Quantity) units.Quantity { return peak(ratio).Sub(goal) })
	needed := units.Where(in.Limit, light, found, least)
	ratio := units.Where(in.Limit, plain.UndampedPeak, needed, units.Number(0))
	damping := ratio.Mul(in.Capacitance)
	return DampingResult{Resistance: plain.Impedance, Ratio: ratio, Damping: damping}, nil
}
