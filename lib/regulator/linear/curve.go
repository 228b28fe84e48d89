package linear

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// LoadPoint is a corner of a curve over the load current.
type LoadPoint struct {
	Load  units.Quantity // A
	Value units.Quantity // there: a dropout voltage, V, or a ground current, A
}

// outsideMend is what to do about a place that a curve does not cover.
const outsideMend = "give the curve a point there"

// between reads a curve at x, straight from corner to corner. The piece is
// chosen in each case by itself, so that an x with spread is read on its own
// piece everywhere.
func between(x units.Quantity, at, values []units.Quantity) units.Quantity {
	value := values[0]
	for i := range len(at) - 1 {
		along := x.Sub(at[i]).Div(at[i+1].Sub(at[i]))
		piece := values[i].Add(values[i+1].Sub(values[i]).Mul(along))
		value = units.Where(x, at[i], value, piece)
	}
	return value
}

// alongLoad reads a curve over the load after checking it. of names the
// curve in messages; kind is what its values are.
func alongLoad(of string, kind argument.Kind, curve []LoadPoint, load units.Quantity) (units.Quantity, error) {
	if len(curve) < 2 {
		return none, fmt.Errorf("%s needs at least two points and has %d: write load and value of each", of, len(curve))
	}
	if err := argument.Current.NotNegative("load", load); err != nil {
		return none, err
	}
	var loads, values []units.Quantity
	for i, p := range curve {
		name := fmt.Sprintf("the load of point %d of %s", i+1, of)
		if err := argument.Current.NotNegative(name, p.Load); err != nil {
			return none, err
		}
		if err := kind.NotNegative(fmt.Sprintf("the value of point %d of %s", i+1, of), p.Value); err != nil {
			return none, err
		}
		if i > 0 {
			if err := argument.Above(name, p.Load, fmt.Sprintf("that of point %d", i), curve[i-1].Load, "write the points with rising loads"); err != nil {
				return none, err
			}
		}
		loads, values = append(loads, p.Load), append(values, p.Value)
	}
	if err := inside("load", load, loads, of); err != nil {
		return none, err
	}
	return between(load, loads, values), nil
}

// inside checks that x lies on the curve called of, whose corners are at.
func inside(name string, x units.Quantity, at []units.Quantity, of string) error {
	if err := argument.AtLeast(name, x, "the first point of "+of, at[0], outsideMend); err != nil {
		return err
	}
	return argument.AtMost(name, x, "the last point of "+of, at[len(at)-1], outsideMend)
}
