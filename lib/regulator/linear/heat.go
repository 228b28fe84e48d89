package linear

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// HeatInputs are the arguments of Heat.
type HeatInputs struct {
	Input      units.Quantity // voltage at the input, V
	Output     units.Quantity // voltage that comes out, V
	Load       units.Quantity // current drawn from the output, A
	Ground     units.Quantity // current that the regulator itself takes, A; left out: none
	Ambient    units.Quantity // air at the part, °C
	Resistance units.Quantity // junction to air, on this board, K/W
	Limit      units.Quantity // highest junction temperature, °C
	Rated      units.Quantity // load that the data sheet allows at most, A; left out: no such limit
}

// HeatResult is what Heat finds.
type HeatResult struct {
	Loss           units.Quantity // in the regulator, W
	Rise           units.Quantity // of the junction above the air, K
	Junction       units.Quantity // temperature of the junction, °C
	Margin         units.Quantity // left to Limit, K; below zero: too hot
	AllowedLoss    units.Quantity // that this air lets go, W
	LargestLoad    units.Quantity // that this air and Rated allow, A
	LargestAmbient units.Quantity // air in which the junction is just at Limit, °C
}

// Heat computes the temperature of the junction, and the largest load and
// the warmest air that a limit for it allows.
//
//	Loss           = (input − output) · load + input · ground
//	Rise           = Loss · resistance
//	Junction       = ambient + Rise
//	Margin         = limit − Junction
//	AllowedLoss    = (limit − ambient)/resistance
//	LargestLoad    = (AllowedLoss − input · ground)/(input − output), not above rated
//	LargestAmbient = limit − Rise, not below absolute zero
//
// Arguments: see HeatInputs; voltages and Resistance above zero, Output below
// Input, currents not below zero, Limit above Ambient. It is an error outside
// of that, and where the ground current alone heats the junction to Limit. A
// junction that is too hot is none: Margin is below zero by what is missing,
// and LargestLoad says what may be drawn instead.
//
//	h, err := linear.Heat(linear.HeatInputs{
//		Input: 5V, Output: 3.3V, Load: 280mA, Ambient: 60°C, Resistance: 62K/W, Limit: 125°C,
//	})
//	// h.Junction: 89.51 °C; h.LargestLoad: 616.7 mA
//
// Holds in the steady state.
//
// Source: definition of thermal resistance (JEDEC JESD51-1); the loss as in
// Loss.
//
// Caution: θJA of a data sheet belongs to its test board. A bipolar pass
// element's ground current grows with the load: LargestLoad takes the one
// that is given. The limit is where life and parameters end, not a place to
// run at; common practice stays 10 K to 25 K below it. A short circuit at the
// output makes the loss input · current limit.
func Heat(in HeatInputs) (HeatResult, error) {
	const function = "linear.Heat"
	ground := argument.Current.OrZero(in.Ground)
	if err := argument.First(function,
		argument.Voltage.Positive("Input", in.Input),
		argument.Voltage.Positive("Output", in.Output),
		argument.Current.NotNegative("Load", in.Load),
		argument.Current.NotNegative("Ground", ground),
		argument.Temperature("Ambient", in.Ambient),
		argument.ThermalResistance.Positive("Resistance", in.Resistance),
		argument.Temperature("Limit", in.Limit),
		argument.Current.Optional("Rated", in.Rated),
	); err != nil {
		return HeatResult{}, err
	}
	input, output, load, ambient, resistance, limit := in.Input, in.Output, in.Load, in.Ambient, in.Resistance, in.Limit
	if err := argument.First(function,
		argument.Above("Input", input, "Output", output, tooLowMend),
		argument.Above("Limit", limit, "Ambient", ambient, "lower the ambient temperature or choose a part with a higher limit"),
	); err != nil {
		return HeatResult{}, err
	}
	drop := input.Sub(output)
	groundLoss := input.Mul(ground)
	loss := drop.Mul(load).Add(groundLoss)
	rise := loss.Mul(resistance)
	junction := ambient.Add(rise)
	margin := limit.Sub(junction)
	allowedLoss := limit.Sub(ambient).Div(resistance)
	if err := argument.First(function,
		argument.Above("the loss that Ambient allows", allowedLoss, "that of Ground alone", groundLoss, "no load is left: lower Input or Resistance, or choose a part with less ground current"),
	); err != nil {
		return HeatResult{}, err
	}
	largestLoad := allowedLoss.Sub(groundLoss).Div(drop)
	if argument.Given(in.Rated) {
		largestLoad = units.Min(largestLoad, in.Rated)
	}
	largestAmbient := limit.Sub(units.Min(rise, units.Absolute(limit)))
	return HeatResult{
		Loss:           loss,
		Rise:           rise,
		Junction:       junction,
		Margin:         margin,
		AllowedLoss:    allowedLoss,
		LargestLoad:    largestLoad,
		LargestAmbient: largestAmbient,
	}, nil
}
