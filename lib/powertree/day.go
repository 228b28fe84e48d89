package powertree

import (
	"fmt"
	"strings"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// day is how long a day is.
var day = units.MustParse("24 h")

// times finds how long each mode takes in a day: what one leaves out is the
// rest.
func times(modes []Mode) ([]units.Quantity, error) {
	rest, open := day, -1
	out := make([]units.Quantity, len(modes))
	var parts []string
	for i, m := range modes {
		if !argument.Given(m.Time) {
			if open >= 0 {
				return nil, fmt.Errorf("modes %s and %s have no Time; only one can have the rest of the day: write the time of the other in a day", modes[open].Name, m.Name)
			}
			open = i
			continue
		}
		if err := argument.Time.NotNegative("the time of mode "+m.Name, m.Time); err != nil {
			return nil, err
		}
		out[i] = units.In(m.Time, "h")
		rest = rest.Sub(out[i])
		parts = append(parts, m.Name)
	}
	rounding := day.Mul(units.Number(1e-9))
	used := day.Sub(rest)
	sum := "the time of " + strings.Join(parts, " + ")
	if err := argument.AtMost(sum, used, "a day", day.Add(rounding), "the modes share one day, so shorten one of them"); err != nil {
		return nil, err
	}
	if open < 0 {
		if err := argument.AtLeast(sum, used, "a day", day.Sub(rounding), "leave Time out of the mode that has the rest of the day"); err != nil {
			return nil, err
		}
		return out, nil
	}
	out[open] = units.In(units.Max(rest, day.Sub(day)), "h")
	return out, nil
}

// most finds the largest of the values, in each case by itself, and names the
// modes that have it in some case.
func most(modes []Mode, values []units.Quantity) (units.Quantity, string) {
	largest := values[0]
	for _, v := range values[1:] {
		largest = units.Max(largest, v)
	}
	var in []string
	for k := range values {
		isNot := func(v []float64) bool {
			for i := range v {
				if i < k && v[i] >= v[k] || v[i] > v[k] {
					return true
				}
			}
			return false
		}
		if _, _, nowhere := units.Everywhere(isNot, values...); !nowhere {
			in = append(in, modes[k].Name)
		}
	}
	return largest, strings.Join(in, " or ")
}
