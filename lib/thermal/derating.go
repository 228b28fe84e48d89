package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DeratingInputs are the arguments of Derating.
type DeratingInputs struct {
	Rated       units.Quantity // power up to Full, W
	Full        units.Quantity // highest temperature for the whole of Rated, °C
	Zero        units.Quantity // temperature at which nothing is left, °C
	Temperature units.Quantity // of the air or case the data sheet counts from, °C
}

// DeratingResult is what Derating finds.
type DeratingResult struct {
	Slope   units.Quantity // lost per kelvin above Full, W/K
	Share   units.Quantity // of Rated that is left, no unit
	Allowed units.Quantity // power at Temperature, W
}

// Derating computes the power that is left of a rating that falls in a
// straight line from a temperature to zero.
//
//	Slope   = rated/(zero − full)
//	Share   = (zero − temperature)/(zero − full), not above 1, not below 0
//	Allowed = rated · Share
//
// Arguments: see DeratingInputs; Rated above zero, Zero above Full. It is an
// error outside of that. At and above Zero, Allowed is 0 W; at and below
// Full it is Rated.
//
//	d, err := thermal.Derating(thermal.DeratingInputs{Rated: 250mW, Full: 70°C, Zero: 155°C, Temperature: 100°C})
//	// d.Allowed: 161.8 mW
//
// Holds for parts whose rating is one limit temperature and one thermal
// resistance, 1/Slope: resistors, diodes, transistors. A curve with more
// corners goes into DeratingFrom.
//
// Source: derating curve of film resistors (IEC 60115-1), transistors: data
// sheets in general.
//
// Caution: resistors count from the air, power transistors from the case;
// the soldering point of a chip resistor has its own curve. Voltage and pulse
// ratings do not follow.
func Derating(in DeratingInputs) (DeratingResult, error) {
	const function = "thermal.Derating"
	if err := argument.First(function,
		argument.Power.Positive("Rated", in.Rated),
		argument.Temperature("Full", in.Full),
		argument.Temperature("Zero", in.Zero),
		argument.Temperature("Temperature", in.Temperature),
	); err != nil {
		return DeratingResult{}, err
	}
	if err := argument.First(function,
		argument.Above("Zero", in.Zero, "Full", in.Full, "take both corners from the derating curve"),
	); err != nil {
		return DeratingResult{}, err
	}
	span := in.Zero.Sub(in.Full)
	slope := in.Rated.Div(span)
	line := in.Zero.Sub(in.Temperature).Div(span)
	share := units.Max(units.Min(line, units.Number(1)), units.Number(0))
	allowed := in.Rated.Mul(share)
	return DeratingResult{Slope: slope, Share: share, Allowed: allowed}, nil
}

// SlopeDeratingInputs are the arguments of DeratingBySlope.
type SlopeDeratingInputs struct {
	Rated       units.Quantity // power up to Full, W
	Slope       units.Quantity // lost per kelvin above Full, W/K
	Full        units.Quantity // highest temperature for the whole of Rated, °C
	Temperature units.Quantity // of the air or case the data sheet counts from, °C
}

// DeratingBySlope computes the power that is left of a rating given as so
// many milliwatts per kelvin above a temperature.
//
//	zero = full + rated/slope
//
// and from there as Derating.
//
// Arguments: see SlopeDeratingInputs; Rated and Slope above zero. It is an
// error outside of that.
//
//	d, err := thermal.DeratingBySlope(thermal.SlopeDeratingInputs{Rated: 600mW, Slope: 4.8mW/K, Full: 25°C, Temperature: 40°C})
//	// d.Allowed: 528 mW
//
// Where it holds, source and cautions: as Derating. 1/slope is the thermal
// resistance that the rating implies.
func DeratingBySlope(in SlopeDeratingInputs) (DeratingResult, error) {
	const function = "thermal.DeratingBySlope"
	if err := argument.First(function,
		argument.Power.Positive("Rated", in.Rated),
		argument.Slope.Positive("Slope", in.Slope),
		argument.Temperature("Full", in.Full),
		argument.Temperature("Temperature", in.Temperature),
	); err != nil {
		return DeratingResult{}, err
	}
	zero := in.Full.Add(in.Rated.Div(in.Slope))
	return Derating(DeratingInputs{Rated: in.Rated, Full: in.Full, Zero: zero, Temperature: in.Temperature})
}
