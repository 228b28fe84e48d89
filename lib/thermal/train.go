package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PulseTrainInputs are the arguments of PulseTrain.
type PulseTrainInputs struct {
	Network   Foster         // from the junction to where Reference is
	Reference units.Quantity // temperature there, which stays, °C
	Power     units.Quantity // during each pulse, W
	Duration  units.Quantity // of each pulse, s
	Period    units.Quantity // from one pulse to the next, s
	Base      units.Quantity // power that is there all the time besides, W; left out: none
}

// PulseTrainResult is what PulseTrain finds.
type PulseTrainResult struct {
	Duty      units.Quantity // share of the time in which there is a pulse, no unit
	Steady    units.Quantity // Zth after a long time: the thermal resistance, K/W
	Highest   units.Quantity // impedance that the pulses see at their ends, K/W
	Lowest    units.Quantity // impedance that is left of them before the next, K/W
	MeanPower units.Quantity // with Base, W
	Mean      units.Quantity // mean temperature, °C
	Peak      units.Quantity // temperature at the end of each pulse, °C
	Valley    units.Quantity // temperature before each pulse, °C
	Swing     units.Quantity // from valley to peak, K
}

// PulseTrain computes the temperatures between which a junction swings once a
// train of equal pulses has gone on for long: exactly, not from the curve of a
// single pulse.
//
//	Duty      = duration/period
//	Steady    = resistance₁ + resistance₂ + …
//	Highest   = sum over the stages of resistance · (1 − e^(−duration/τ))/(1 − e^(−period/τ))
//	Lowest    = sum over the stages of resistance · (1 − e^(−duration/τ))/(1 − e^(−period/τ)) · e^(−(period − duration)/τ)
//	MeanPower = base + power · Duty
//	Mean      = reference + MeanPower · Steady
//	Peak      = reference + base · Steady + power · Highest
//	Valley    = reference + base · Steady + power · Lowest
//	Swing     = power · (Highest − Lowest)
//
// Arguments: Network, see Foster; Reference, °C; Power and Base, W, not below
// zero; Duration and Period, s, above zero, Duration not above Period. It is
// an error outside of that.
//
//	t, err := thermal.PulseTrain(thermal.PulseTrainInputs{
//		Network: network, Reference: 50°C, Power: 20W, Duration: 5ms, Period: 50ms,
//	})
//
// Holds when as many periods have passed as make some five of the longest
// time constant. At a duty of one it is constant power; pulses far shorter
// than all time constants see Duty · Steady.
//
// Source: geometric series of the single pulses; Foster network as at
// Impedance.
//
// Caution: Swing, not Peak, is what wears bond wires and solder: a swing of
// 80 K a few times a minute ends a power module within a year or so.
func PulseTrain(in PulseTrainInputs) (PulseTrainResult, error) {
	const function = "thermal.PulseTrain"
	stages, err := in.Network.check(function)
	if err != nil {
		return PulseTrainResult{}, err
	}
	base := argument.Power.OrZero(in.Base)
	if err := argument.First(function,
		argument.Temperature("Reference", in.Reference),
		argument.Power.NotNegative("Power", in.Power),
		argument.Time.Positive("Duration", in.Duration),
		argument.Time.Positive("Period", in.Period),
		argument.Power.NotNegative("Base", base),
	); err != nil {
		return PulseTrainResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Duration", in.Duration, "Period", in.Period, "lengthen the period, or take the power as constant"),
	); err != nil {
		return PulseTrainResult{}, err
	}
	duty := in.Duration.Div(in.Period)
	steady := steadyOf(stages)
	highest, lowest := trainImpedances(stages, in.Duration, in.Period)
	meanPower := base.Add(in.Power.Mul(duty))
	foot := in.Reference
	if argument.Given(in.Base) {
		foot = foot.Add(base.Mul(steady))
	}
	return PulseTrainResult{
		Duty:      duty,
		Steady:    steady,
		Highest:   highest,
		Lowest:    lowest,
		MeanPower: meanPower,
		Mean:      in.Reference.Add(meanPower.Mul(steady)),
		Peak:      foot.Add(in.Power.Mul(highest)),
		Valley:    foot.Add(in.Power.Mul(lowest)),
		Swing:     in.Power.Mul(highest.Sub(lowest)),
	}, nil
}

func trainImpedances(stages []fosterStage, duration, period units.Quantity) (highest, lowest units.Quantity) {
	highest = argument.ThermalResistance.OrZero(none)
	lowest = highest
	for _, s := range stages {
		most := s.resistance.Mul(reached(duration, s.timeConstant)).Div(reached(period, s.timeConstant))
		highest = highest.Add(most)
		lowest = lowest.Add(most.Mul(left(period.Sub(duration), s.timeConstant)))
	}
	return highest, lowest
}

// LargestPulseInputs are the arguments of LargestPulse.
type LargestPulseInputs struct {
	Network   Foster         // from the junction to where Reference is
	Reference units.Quantity // temperature there, which stays, °C
	Limit     units.Quantity // highest junction temperature allowed, °C
	Duration  units.Quantity // of the pulse, s
	Period    units.Quantity // from one pulse to the next, s; left out: a single pulse
	Base      units.Quantity // power that is there all the time besides, W; left out: none
}

// LargestPulseResult is what LargestPulse finds.
type LargestPulseResult struct {
	Before    units.Quantity // temperature by Base alone, °C
	Impedance units.Quantity // that the pulses see at their ends, K/W
	Power     units.Quantity // of each pulse, W
	Energy    units.Quantity // of each pulse, J
}

// LargestPulse finds the power that pulses may have so that the junction just
// reaches its limit at their ends: the thermal edge of the safe operating area.
//
//	Before    = reference + base · Steady
//	Impedance = Zth(duration) of a single pulse, Highest of a train
//	Power     = (limit − Before)/Impedance
//	Energy    = Power · duration
//
// with Zth as Impedance finds it, Steady and Highest as PulseTrain does.
//
// Arguments: Network, see Foster; Reference and Limit, °C; Duration, s, above
// zero; Period, s, not below Duration; Base, W, not below zero. It is an error
// outside of that, and where Base alone heats to Limit.
//
//	p, err := thermal.LargestPulse(thermal.LargestPulseInputs{Network: network, Reference: 85°C, Limit: 150°C, Duration: 1ms})
//
// Where it holds: as PulseTrain, and while the power is spread evenly over the
// chip.
//
// Source: definition of the transient thermal impedance (JEDEC JESD51-14).
//
// Caution: at high voltage a transistor's current crowds together and it fails
// at less than this; the safe operating area of its data sheet shows the bend,
// and holds at 25 °C unless it says otherwise. An avalanche has ratings of its
// own.
func LargestPulse(in LargestPulseInputs) (LargestPulseResult, error) {
	const function = "thermal.LargestPulse"
	stages, err := in.Network.check(function)
	if err != nil {
		return LargestPulseResult{}, err
	}
	base := argument.Power.OrZero(in.Base)
	if err := argument.First(function,
		argument.Temperature("Reference", in.Reference),
		argument.Temperature("Limit", in.Limit),
		argument.Time.Positive("Duration", in.Duration),
		argument.Time.Optional("Period", in.Period),
		argument.Power.NotNegative("Base", base),
	); err != nil {
		return LargestPulseResult{}, err
	}
	before := in.Reference
	if argument.Given(in.Base) {
		before = before.Add(base.Mul(steadyOf(stages)))
	}
	if err := argument.First(function, argument.Above("Limit", in.Limit, "what Base alone heats to", before, "lower Base or Reference, or choose a part with a higher limit")); err != nil {
		return LargestPulseResult{}, err
	}
	impedance := impedanceOf(stages, in.Duration)
	if argument.Given(in.Period) {
		if err := argument.First(function, argument.AtMost("Duration", in.Duration, "Period", in.Period, "lengthen the period, or take the power as constant")); err != nil {
			return LargestPulseResult{}, err
		}
		impedance, _ = trainImpedances(stages, in.Duration, in.Period)
	}
	power := in.Limit.Sub(before).Div(impedance)
	energy := power.Mul(in.Duration)
	return LargestPulseResult{Before: before, Impedance: impedance, Power: power, Energy: energy}, nil
}
