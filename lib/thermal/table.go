package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// DeratingPoint is a corner of a derating curve.
type DeratingPoint struct {
	Temperature units.Quantity // °C
	Value       units.Quantity // what is allowed there: a power, a current, a share
}

// DeratingFrom reads a derating curve that is given by its corners.
//
//	value = value₁ + (value₂ − value₁) · (temperature − temperature₁)/(temperature₂ − temperature₁)
//
// between the two corners around temperature.
//
// Arguments: curve, at least two corners with rising temperatures, °C, and
// values of one dimension, none below zero; temperature, °C, from the first
// corner to the last. Result: the value there. It is an error outside of
// that: a curve says nothing beyond its ends, so give it a corner at the
// lowest temperature of the design.
//
//	I, err := thermal.DeratingFrom([]thermal.DeratingPoint{
//		{-40°C, 2A}, {60°C, 2A}, {85°C, 1.2A}, {105°C, 0A},
//	}, 70°C)
//	// 1.68 A
//
// Holds for curves that are straight between their corners; of a bent curve
// take enough corners.
//
// Source: straight-line interpolation.
func DeratingFrom(curve []DeratingPoint, temperature units.Quantity) (units.Quantity, error) {
	const function = "thermal.DeratingFrom"
	if err := checkCurve(function, curve); err != nil {
		return none, err
	}
	if err := argument.First(function, argument.Temperature("temperature", temperature)); err != nil {
		return none, err
	}
	first, last := curve[0], curve[len(curve)-1]
	at := argument.Below(temperature, first.Temperature, temperature, first.Temperature, last.Temperature)
	if at == nil {
		at = argument.Below(last.Temperature, temperature, temperature, first.Temperature, last.Temperature)
	}
	if at != nil {
		return none, fmt.Errorf("%s: temperature is %s; the curve goes from %s to %s: give it a corner there", function, at[0], at[1], at[2])
	}
	// Corner by corner, choosing by temperature, so that a temperature with
	// spread is read on its own piece of the curve everywhere.
	value := first.Value
	for i, low := range curve[:len(curve)-1] {
		high := curve[i+1]
		along := temperature.Sub(low.Temperature).Div(high.Temperature.Sub(low.Temperature))
		between := low.Value.Add(high.Value.Sub(low.Value).Mul(along))
		value = units.Where(temperature, low.Temperature, value, between)
	}
	return value, nil
}

func checkCurve(function string, curve []DeratingPoint) error {
	if len(curve) < 2 {
		return fmt.Errorf("%s: curve needs at least two corners and has %d: write temperature and value of each", function, len(curve))
	}
	for i, corner := range curve {
		if err := argument.First(function, argument.Temperature(fmt.Sprintf("the temperature of corner %d", i+1), corner.Temperature)); err != nil {
			return err
		}
		if !argument.Given(corner.Value) {
			return fmt.Errorf("%s: the value of corner %d is not given, or is the bare number 0: write it with its unit, such as 0 A", function, i+1)
		}
		if corner.Value.Dim() != curve[0].Value.Dim() {
			return fmt.Errorf("%s: the value of corner %d is %v, that of corner 1 is %v: give all values in the same unit", function, i+1, corner.Value, curve[0].Value)
		}
		if err := argument.First(function, argument.Size(fmt.Sprintf("the value of corner %d", i+1), corner.Value)); err != nil {
			return err
		}
		if i == 0 {
			continue
		}
		before := curve[i-1].Temperature
		if at := argument.NotAbove(corner.Temperature, before, corner.Temperature, before); at != nil {
			return fmt.Errorf("%s: corner %d is at %s, corner %d at %s: write the corners with rising temperatures", function, i+1, at[0], i, at[1])
		}
	}
	return nil
}
