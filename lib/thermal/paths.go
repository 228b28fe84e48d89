package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// PathsResult is what ParallelPaths finds.
type PathsResult struct {
	Total  units.Quantity   // of all paths together, K/W
	Rise   units.Quantity   // of the common hot point, K
	Powers []units.Quantity // through each path, W, in the order of the arguments
}

// ParallelPaths computes what several paths between the same two points make
// together: top and board, vias beside each other, two heat sinks.
//
//	Total    = 1/(1/resistance₁ + 1/resistance₂ + …)
//	Rise     = power · Total
//	Powers_i = Rise/resistance_i
//
// Arguments: power, W, not below zero, that leaves by all paths together;
// resistances, K/W, at least one, each above zero and each of a whole path.
// It is an error outside of that.
//
//	p, err := thermal.ParallelPaths(1W, 60K/W, 30K/W)   // 20 K/W, 20 K, of which 333 mW and 667 mW
//
// Holds where the paths part at one point and end at the same temperature,
// and do not warm each other on the way.
//
// Source: resistances in parallel (any textbook).
//
// Caution: θJA already is all paths together: adding a path beside it counts
// what it shares twice.
func ParallelPaths(power units.Quantity, resistances ...units.Quantity) (PathsResult, error) {
	const function = "thermal.ParallelPaths"
	if err := argument.First(function, argument.Power.NotNegative("power", power)); err != nil {
		return PathsResult{}, err
	}
	if err := checkResistances(function, resistances); err != nil {
		return PathsResult{}, err
	}
	total := units.Parallel(resistances[0], resistances[1:]...)
	rise := power.Mul(total)
	powers := make([]units.Quantity, len(resistances))
	for i, resistance := range resistances {
		powers[i] = rise.Div(resistance)
	}
	return PathsResult{Total: total, Rise: rise, Powers: powers}, nil
}
