package plot

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Steps gives values at equal distances, for the X of a series.
//
//	value i = from + (to − from) · i/(count − 1)
//
// Arguments: from and to, exact values of one dimension, from the smaller;
// count, 2 to 2000, how many. Result: the values, both ends among them. It is
// an error if the ends are no such values.
//
//	x, err := plot.Steps(0A, 2A, 21)   // 0 A, 0.1 A, … 2 A
//
// Source: an arithmetic progression. Caution: a curve that spans decades is
// better served by StepsLog.
func Steps(from, to units.Quantity, count int) ([]units.Quantity, error) {
	if err := checkSteps(from, to, count); err != nil {
		return nil, fmt.Errorf("plot.Steps: %w", err)
	}
	list := make([]units.Quantity, count)
	for i := range list {
		part := units.Number(float64(i) / float64(count-1))
		list[i] = from.Add(to.Sub(from).Mul(part))
	}
	list[count-1] = to
	return list, nil
}

// StepsLog gives values at equal ratios, for the X of a series on
// a logarithmic axis.
//
//	value i = from · (to/from)^(i/(count − 1))
//
// Arguments and result are those of Steps, but from is above zero. It is an
// error if the ends are no such values.
//
//	x, err := plot.StepsLog(1kHz, 1MHz, 4)   // 1 kHz, 10 kHz, 100 kHz, 1 MHz
//
// Source: a geometric progression. Caution: a temperature or a level has no
// ratio, and is refused.
func StepsLog(from, to units.Quantity, count int) ([]units.Quantity, error) {
	err := checkSteps(from, to, count)
	if err == nil && from.Dim().Kind() != units.PlainScale {
		err = fmt.Errorf("the steps go from %v to %v; a temperature or a level has no ratio: use Steps", from, to)
	}
	if err == nil {
		err = checkLog(true, "start above zero", "the first step", from)
	}
	if err != nil {
		return nil, fmt.Errorf("plot.StepsLog: %w", err)
	}
	list := make([]units.Quantity, count)
	for i := range list {
		list[i] = from.Mul(units.Pow(to.Div(from), float64(i)/float64(count-1)))
	}
	list[0], list[count-1] = from, to
	return list, nil
}

func checkSteps(from, to units.Quantity, count int) error {
	// An end may be the bare number 0: the other says of what.
	if !argument.Given(from) && argument.Given(to) && to.Dim().Kind() == units.PlainScale {
		from = to.Sub(to)
	}
	if err := argument.Count("count", count, 2, mostPoints, "a curve needs two points, and a picture shows no more than that"); err != nil {
		return err
	}
	if err := checkExact("the first step", from); err != nil {
		return err
	}
	if err := checkExact("the last step", to); err != nil {
		return err
	}
	if !alike(from, to) {
		return fmt.Errorf("the steps go from %v to %v: give both ends in the same unit", from, to)
	}
	if at := argument.NotAbove(to, from, to, from); at != nil {
		return fmt.Errorf("the steps go from %v to %v: write the smaller end first", from, to)
	}
	return nil
}
