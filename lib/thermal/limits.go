package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

const limitMend = "lower the ambient temperature or choose a part with a higher limit"

// LargestPower returns the power that just heats to a limit.
//
//	power = (limit − ambient)/resistance
//
// Arguments: ambient, the temperature at the cold end, °C; limit, the highest
// temperature allowed at the hot end, °C, above ambient; resistance, from the
// one to the other, K/W, above zero. Result: a power, W. It is an error
// outside of that.
//
//	P, err := thermal.LargestPower(85°C, 125°C, 40K/W)   // 1 W
//
// Source: definition of thermal resistance (JEDEC JESD51-1).
//
// Caution: the limit of a data sheet is where life and parameters end, not a
// place to run at; common practice stays 10 K to 25 K below it.
func LargestPower(ambient, limit, resistance units.Quantity) (units.Quantity, error) {
	const function = "thermal.LargestPower"
	if err := argument.First(function,
		argument.Temperature("ambient", ambient),
		argument.Temperature("limit", limit),
		argument.ThermalResistance.Positive("resistance", resistance),
	); err != nil {
		return none, err
	}
	if err := argument.First(function, argument.Above("limit", limit, "ambient", ambient, limitMend)); err != nil {
		return none, err
	}
	power := limit.Sub(ambient).Div(resistance)
	return power, nil
}

// LargestResistance returns the thermal resistance with which a power just
// heats to a limit.
//
//	resistance = (limit − ambient)/power
//
// Arguments: ambient, the temperature at the cold end, °C; limit, the highest
// temperature allowed at the hot end, °C, above ambient; power, W, above
// zero. Result: a thermal resistance, K/W, of the whole path. It is an error
// outside of that.
//
//	θ, err := thermal.LargestResistance(50°C, 125°C, 1.5W)   // 50 K/W
//
// With the power and temperature of a rating (600 mW at 25 °C, 150 °C at the
// junction) it gives the resistance that the rating implies.
//
// Source: definition of thermal resistance (JEDEC JESD51-1).
func LargestResistance(ambient, limit, power units.Quantity) (units.Quantity, error) {
	const function = "thermal.LargestResistance"
	if err := argument.First(function,
		argument.Temperature("ambient", ambient),
		argument.Temperature("limit", limit),
		argument.Power.Positive("power", power),
	); err != nil {
		return none, err
	}
	if err := argument.First(function, argument.Above("limit", limit, "ambient", ambient, limitMend)); err != nil {
		return none, err
	}
	resistance := limit.Sub(ambient).Div(power)
	return resistance, nil
}

// LargestAmbient returns the temperature at the cold end at which a power
// just heats to a limit.
//
//	ambient = limit − power · resistance
//
// Arguments: limit, the highest temperature allowed at the hot end, °C;
// power, W, not below zero; resistance, K/W, above zero. Result: a
// temperature, °C. It is an error outside of that, and where the rise alone
// is more than lies between absolute zero and limit.
//
//	Ta, err := thermal.LargestAmbient(125°C, 500mW, 62K/W)   // 94 °C
//
// Source: definition of thermal resistance (JEDEC JESD51-1).
//
// Caution: ambient is the air at the part, inside the housing.
func LargestAmbient(limit, power, resistance units.Quantity) (units.Quantity, error) {
	const function = "thermal.LargestAmbient"
	if err := argument.First(function,
		argument.Temperature("limit", limit),
		argument.Power.NotNegative("power", power),
		argument.ThermalResistance.Positive("resistance", resistance),
	); err != nil {
		return none, err
	}
	rise := power.Mul(resistance)
	if err := argument.First(function,
		argument.Above("limit in kelvin", units.Absolute(limit), "the rise", rise, "no ambient is cold enough; lower the power or the resistance"),
	); err != nil {
		return none, err
	}
	ambient := limit.Sub(rise)
	return ambient, nil
}
