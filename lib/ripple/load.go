package ripple

import (
	"errors"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// kind is how a load's current depends on its voltage.
type kind int

const (
	ofCurrent    kind = iota // the same at any voltage: a linear regulator
	ofPower                  // falls as the voltage rises: a switching regulator
	ofResistance             // Ohm's law
)

// load is what a supply feeds.
type load struct {
	kind kind
	size units.Quantity // A, W or Ω
}

// loadOf takes the one of three that is given.
func loadOf(current, power, resistance units.Quantity) (load, error) {
	var found []load
	var errs []error
	for _, x := range []struct {
		kind kind
		size units.Quantity
		is   argument.Kind
		name string
	}{
		{ofCurrent, current, argument.Current, "LoadCurrent"},
		{ofPower, power, argument.Power, "LoadPower"},
		{ofResistance, resistance, argument.Resistance, "LoadResistance"},
	} {
		if argument.Given(x.size) {
			found = append(found, load{x.kind, x.size})
			errs = append(errs, x.is.Positive(x.name, x.size))
		}
	}
	if len(found) != 1 {
		return load{}, errors.New("the load is not given, or given twice: write LoadCurrent for a linear regulator, LoadPower for a switching one, or LoadResistance, and one of them only")
	}
	return found[0], errs[0]
}

// current is what the load takes at a voltage.
func (l load) current(v units.Quantity) units.Quantity {
	switch l.kind {
	case ofPower:
		return l.size.Div(v)
	case ofResistance:
		return v.Div(l.size)
	}
	return l.size
}

// droop is by how much a capacitor that alone feeds the load falls below v in
// a time in which it does not run empty. It is not a difference of voltages,
// which would lose the digits of a small one.
func (l load) droop(v, capacitance, time units.Quantity) units.Quantity {
	two := units.Number(2)
	switch l.kind {
	case ofPower:
		square := v.Mul(v)
		lost := two.Mul(l.size).Mul(time).Div(capacitance)
		left := units.Max(square.Sub(lost), square.Sub(square))
		return lost.Div(v.Add(units.Sqrt(left)))
	case ofResistance:
		times := time.Div(l.size.Mul(capacitance))
		gone := units.Lanewise("the discharge", times, func(x []float64) float64 { return -math.Expm1(-x[0]) }, times)
		return v.Mul(gone)
	}
	return l.size.Mul(time).Div(capacitance)
}

// area is the voltage of such a discharge from v by droop d, summed over its time.
func (l load) area(v, d, capacitance, time units.Quantity) units.Quantity {
	end := v.Sub(d)
	switch l.kind {
	case ofPower:
		squares := v.Mul(v).Add(v.Mul(end)).Add(end.Mul(end))
		return capacitance.Mul(d).Mul(squares).Div(units.Number(3).Mul(l.size))
	case ofResistance:
		return l.size.Mul(capacitance).Mul(d)
	}
	return v.Add(end).Mul(units.Number(0.5)).Mul(time)
}

// heat is the square of the current of such a discharge, summed over its time.
func (l load) heat(v, d, capacitance, time units.Quantity) units.Quantity {
	end := v.Sub(d)
	switch l.kind {
	case ofPower:
		return capacitance.Mul(l.size).Mul(units.Ln(v.Div(end)))
	case ofResistance:
		return capacitance.Mul(d).Mul(v.Add(end)).Mul(units.Number(0.5)).Div(l.size)
	}
	return l.size.Mul(l.size).Mul(time)
}

// lasting is the time in which such a discharge from v reaches zero; a
// resistance never quite does, and has none.
func (l load) lasting(v, capacitance units.Quantity) (time units.Quantity, ends bool) {
	switch l.kind {
	case ofPower:
		return capacitance.Mul(v).Mul(v).Div(units.Number(2).Mul(l.size)), true
	case ofResistance:
		return none, false
	}
	return capacitance.Mul(v).Div(l.size), true
}
