package preferred

import (
	"fmt"
	"slices"
	"strings"

	"ohmwright/units"
)

// Stock makes a series of the values that a person has: a drawer, a
// manufacturer's list, the parts already on the board. It does not repeat
// from decade to decade.
//
//	drawer, _ := Stock(100Ω, 470Ω, 1kΩ, 4.7kΩ, 10kΩ)
//	Nearest(drawer, 4kΩ)   // 4.7 kΩ
//
// Arguments: values, at least one, all of one dimension, above zero, in any
// order; a value that is there twice counts once; of a value with spread the
// nominal counts. Result: a Series with the name "stock", which the caller
// may change. It is an error for no values, mixed dimensions, and whatever
// has no preferred number.
//
// Source: common practice.
func Stock(values ...units.Quantity) (Series, error) {
	if len(values) == 0 {
		return Series{}, &units.Error{Msg: "a stock needs at least one value", Hint: "write the values: Stock(1kΩ, 10kΩ)"}
	}
	sorted := make([]units.Quantity, len(values))
	for i, v := range values {
		if _, _, err := sizeOf(fmt.Sprintf("value %d of a stock is", i+1), v); err != nil {
			return Series{}, err
		}
		if v.Dim() != values[0].Dim() {
			return Series{}, &units.Error{
				Msg:  fmt.Sprintf("value %d of a stock is %v, the first is %v", i+1, v, values[0]),
				Hint: "make one stock for each kind of part",
			}
		}
		sorted[i] = units.Nominal(v)
	}
	slices.SortFunc(sorted, func(a, b units.Quantity) int {
		switch {
		case a.Less(b):
			return -1
		case b.Less(a):
			return 1
		}
		return 0
	})
	sorted = slices.CompactFunc(sorted, func(a, b units.Quantity) bool { return a.Same(b) })
	texts := make([]string, len(sorted))
	for i, v := range sorted {
		texts[i] = v.Text(0)
	}
	return Series{Name: "stock", stock: strings.Join(texts, "\n")}, nil
}
