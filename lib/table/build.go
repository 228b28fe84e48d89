package table

import (
	"fmt"
	"slices"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Curve makes a table of the points of a curve.
//
//	t, err := table.Curve([]Quantity{0A, 500mA}, []Quantity{0V, 450mV})
//	t.At(250mA)   // 225 mV
//
// Arguments: x, at least two values that rise; y, as many values; each of one
// kind and exact. Result: a table with the columns x and y. It is an error
// outside of that.
//
// Source: straight-line interpolation.
func Curve(x, y []units.Quantity) (Table, error) {
	const name = "the curve"
	if len(x) != len(y) || len(x) < 2 {
		return Table{}, fmt.Errorf("%s: the number of x is %d, that of y %d: write at least two of each, and as many of one as of the other", name, len(x), len(y))
	}
	columns := []column{{name: "x"}, {name: "y"}}
	rows := make([][]units.Quantity, len(x))
	for k, list := range [][]units.Quantity{x, y} {
		c := &columns[k]
		c.one, c.unit = list[0], list[0].Unit()
		if c.unit == "" {
			c.unit = "1"
		}
		for i, v := range list {
			where := fmt.Sprintf("%s, point %d, %s", name, i+1, c.name)
			switch {
			case !argument.Given(v):
				return Table{}, fmt.Errorf("%s: the value is not given, or is the bare number 0: write it with its unit, such as 0 A", where)
			case !sameKind(v, c.one):
				return Table{}, fmt.Errorf("%s: %v is not of the kind of %v, the first: give all values in the same unit", where, v, c.one)
			case v.HasSpread():
				return Table{}, fmt.Errorf("%s: %v spreads, and the values of a table are exact: write the tolerance behind what At returns", where, v)
			}
			if _, err := c.sized(v.String(), v); err != nil {
				return Table{}, fmt.Errorf("%s: %w", where, err)
			}
			rows[i] = append(rows[i], v)
		}
	}
	return build(name, columns, rows, func(row, col int) string {
		return fmt.Sprintf("%s, point %d, %s", name, row+1, columns[col].name)
	})
}

// build makes a table of its rows, in which what is not given is blank. place
// says where a value stands.
func build(name string, columns []column, rows [][]units.Quantity, place func(row, col int) string) (Table, error) {
	if len(rows) < 2 {
		return Table{}, fmt.Errorf("%s has %s of values, and a curve needs two: write one at each end of it", name, count(len(rows), "row"))
	}
	numbers := make([][]float64, len(columns))
	for k := range columns {
		list := make([]units.Quantity, len(rows))
		for i, row := range rows {
			if list[i] = row[k]; argument.Given(row[k]) {
				columns[k].values = append(columns[k].values, row[k])
			}
		}
		numbers[k] = numbersOf(list...)
	}
	b := builder{name: name, columns: columns, rows: rows, numbers: numbers, place: place}
	if err := b.given(0); err != nil {
		return Table{}, err
	}
	inputs := 1
	if len(columns) > 2 && !b.rises() && b.repeats() {
		inputs = 2
		if err := b.given(1); err != nil {
			return Table{}, err
		}
	}
	for k := inputs; k < len(columns); k++ {
		var err error
		if columns[k].curves, err = b.curves(inputs, k); err != nil {
			return Table{}, err
		}
	}
	return Table{name: name, columns: columns, inputs: inputs}, nil
}

type builder struct {
	name    string
	columns []column
	rows    [][]units.Quantity
	numbers [][]float64 // by columns
	place   func(row, col int) string
}

// given refuses blanks in an input.
func (b builder) given(col int) error {
	for i, row := range b.rows {
		if !argument.Given(row[col]) {
			return fmt.Errorf("%s: the input is blank: write its value, or leave the row out", b.place(i, col))
		}
	}
	return nil
}

func (b builder) rises() bool {
	x := b.numbers[0]
	for i := 1; i < len(x); i++ {
		if !(x[i-1] < x[i]) {
			return false
		}
	}
	return true
}

// repeats reports whether values of the second column come again, as those of
// a second input do.
func (b builder) repeats() bool {
	seen := map[float64]bool{}
	for i, z := range b.numbers[1] {
		if argument.Given(b.rows[i][1]) && seen[z] {
			return true
		}
		seen[z] = true
	}
	return false
}

// curves sorts the rows of an output by the second input, where there is one.
func (b builder) curves(inputs, out int) ([]curve, error) {
	var curves []curve
	index := map[float64]int{} // of the curve with that second input
	last := map[int]int{}      // row that was read last into a curve
	for i, row := range b.rows {
		z := 0.0
		if inputs > 1 {
			z = b.numbers[1][i]
		}
		k, ok := index[z]
		if !ok {
			k = len(curves)
			index[z] = k
			curves = append(curves, curve{at: z, of: row[inputs-1]})
		}
		c := &curves[k]
		if before, ok := last[k]; ok && !(b.numbers[0][before] < b.numbers[0][i]) {
			return nil, b.falls(inputs, before, i)
		}
		last[k] = i
		if !argument.Given(row[out]) {
			continue
		}
		if len(c.x) == 0 {
			c.from = row[0]
		}
		c.x, c.y, c.to = append(c.x, b.numbers[0][i]), append(c.y, b.numbers[out][i]), row[0]
	}
	for k, c := range curves {
		if len(c.x) >= 2 {
			continue
		}
		if inputs == 1 {
			return nil, fmt.Errorf("%s, column %d (%s) has %s, and a curve needs two: write one at each end of it", b.name, out+1, b.columns[out].name, count(len(c.x), "value"))
		}
		return nil, fmt.Errorf("%s: the curve of %s %v has %s of %s, and a curve needs two; if %s is an output, %s must rise from row to row", b.place(last[k], out), b.columns[1].name, c.of, count(len(c.x), "value"), b.columns[out].name, b.columns[1].name, b.columns[0].name)
	}
	slices.SortFunc(curves, func(c, d curve) int {
		if c.at < d.at {
			return -1
		}
		return 1
	})
	return curves, nil
}

// falls is the error for rows whose input does not rise.
func (b builder) falls(inputs, before, row int) error {
	in := b.columns[0]
	x, y := b.rows[before][0], b.rows[row][0]
	what := fmt.Sprintf("%s %v comes behind %v", in.name, y, x)
	if b.numbers[0][before] == b.numbers[0][row] {
		what = fmt.Sprintf("%s %v comes twice", in.name, y)
	}
	mend := fmt.Sprintf("write the rows with rising %s", in.name)
	switch {
	case inputs > 1:
		what += fmt.Sprintf(" in the curve of %s %v", b.columns[1].name, b.rows[row][1])
	case len(b.columns) > 2:
		mend += fmt.Sprintf("; in a family of curves, %s is the same in every row of a curve", b.columns[1].name)
	}
	return fmt.Errorf("%s: %s: %s", b.place(row, 0), what, mend)
}
