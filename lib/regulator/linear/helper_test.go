package linear

import (
	"ohmwright/lib/table"
	"ohmwright/units"
)

var q = units.MustParse

// of makes a quantity of a number and a unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

func box[T any](x T, err error) (any, error) { return x, err }

// tab is a table of text that is known to be right.
func tab(text string) table.Table {
	t, err := table.Text(text)
	if err != nil {
		panic(err)
	}
	return t
}
