package table

import (
	"fmt"
	"slices"
	"strings"

	"github.com/agext/levenshtein"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Table is a table of exact values with one or two inputs and at least one
// output. It never changes. The zero Table is one that was not given.
type Table struct {
	name, hash string
	columns    []column
	inputs     int // how many of the first columns are inputs
	chosen     int // the output to read; 0 while nobody has chosen
	ends       ends
}

// column is a column with its heading. Its slices are never written to after
// they were made: tables share them.
type column struct {
	name, unit string
	log        bool
	one        units.Quantity   // a value of its kind, in its unit
	values     []units.Quantity // those that are not blank, by rows
	curves     []curve          // of an output
}

// curve is an output over the first input, at one value of the second.
type curve struct {
	at   float64        // the second input; 0 where there is none
	of   units.Quantity // the same for people
	x, y []float64
	from units.Quantity // first input of the first row
	to   units.Quantity // and of the last
}

// ends say what holds outside of the rows.
type ends uint8

const (
	nothingKnown ends = iota
	heldEnds
	straightOn
)

// Given reports whether there is a table at all: a field that was left out is
// none.
func (t Table) Given() bool { return len(t.columns) > 0 }

// Name returns the name that the table was read under, mostly of its file;
// "the table" for text of a cell and "the curve" for one made by Curve.
func (t Table) Name() string { return t.name }

// Hash returns the first twelve digits of the SHA-256 of the text that the
// table was read from; "" for a table that was made by Curve or Inverse.
func (t Table) Hash() string { return t.hash }

// String says what the table holds: how many rows, and behind a colon what it
// gives over which inputs, with their ranges.
func (t Table) String() string {
	if !t.Given() {
		return "no table"
	}
	span := func(columns []column) string {
		var parts []string
		for _, c := range columns {
			low, high := c.span()
			part := c.name + " " + low.String() + " … " + high.String()
			if c.log {
				part += " (log)"
			}
			parts = append(parts, part)
		}
		return words(parts, "and")
	}
	outputs := t.columns[t.inputs:]
	if t.chosen > 0 {
		outputs = t.columns[t.chosen : t.chosen+1]
	}
	text := fmt.Sprintf("%d rows: %s over %s", t.Rows(), span(outputs), span(t.columns[:t.inputs]))
	return text + map[ends]string{heldEnds: ", ends held", straightOn: ", straight on beyond its ends"}[t.ends]
}

// Rows returns how many rows of values the table has.
func (t Table) Rows() int {
	if !t.Given() {
		return 0
	}
	return len(t.columns[0].values)
}

// Columns returns the names of the columns, without their units.
func (t Table) Columns() []string {
	names := make([]string, len(t.columns))
	for i, c := range t.columns {
		names[i] = c.name
	}
	return names
}

// Column returns the values of a column from the first row to the last, those
// left out that are blank. It is an error where no column has the name.
func (t Table) Column(name string) ([]units.Quantity, error) {
	i, err := t.find(name)
	if err != nil {
		return nil, err
	}
	return slices.Clone(t.columns[i].values), nil
}

// Ends returns the least and the largest value of a column. It is an error
// where no column has the name.
func (t Table) Ends(column string) (low, high units.Quantity, err error) {
	i, err := t.find(column)
	if err != nil {
		return none, none, err
	}
	low, high = t.columns[i].span()
	return low, high, nil
}

func (c column) span() (low, high units.Quantity) {
	numbers := numbersOf(c.values...)
	least, most := 0, 0
	for i, v := range numbers {
		if v < numbers[least] {
			least = i
		}
		if v > numbers[most] {
			most = i
		}
	}
	return c.values[least], c.values[most]
}

// Of returns the table that reads the named one of several outputs. It is an
// error where no output has the name.
func (t Table) Of(column string) (Table, error) {
	i, err := t.find(column)
	if err != nil {
		return Table{}, err
	}
	if i < t.inputs {
		return Table{}, fmt.Errorf("%s: %s is an input of the table: name an output, one of %s", t.name, column, t.list(t.inputs))
	}
	t.chosen = i
	return t, nil
}

// Output returns the name of the column that At reads. It is an error where
// there are several and Of has chosen none.
func (t Table) Output() (string, error) {
	i, err := t.output()
	if err != nil {
		return "", err
	}
	return t.columns[i].name, nil
}

// Held returns the table with what a data sheet may state: beyond its ends
// the end values hold.
func (t Table) Held() Table {
	t.ends = heldEnds
	return t
}

// Extended returns the table whose outermost pieces go on straight beyond its
// ends. It is for a curve that is known to be straight there.
func (t Table) Extended() Table {
	t.ends = straightOn
	return t
}

// Log returns the table with logarithmic axes for the named columns: between
// two rows the value of such an input counts by its logarithm, and an output
// changes by equal ratios. It is an error for a column that has values of zero
// and below, or temperatures or levels, or that is not there.
func (t Table) Log(columns ...string) (Table, error) { return t.scaled(true, columns) }

// Linear returns the table with linear axes for the named columns, whatever
// their headings say. It is an error where one is not there.
func (t Table) Linear(columns ...string) (Table, error) { return t.scaled(false, columns) }

func (t Table) scaled(log bool, columns []string) (Table, error) {
	if len(columns) == 0 {
		return Table{}, fmt.Errorf("%s: no column is named: write which ones, of %s", t.name, t.list(0))
	}
	scaled := slices.Clone(t.columns)
	for _, name := range columns {
		i, err := t.find(name)
		if err != nil {
			return Table{}, err
		}
		if log {
			if why := scaled[i].noLog(); why != "" {
				return Table{}, fmt.Errorf("%s: %s", t.name, why)
			}
			for _, v := range scaled[i].values {
				if why := scaled[i].notAboveZero(v); why != "" {
					return Table{}, fmt.Errorf("%s: %s", t.name, why)
				}
			}
		}
		scaled[i].log = log
	}
	t.columns = scaled
	return t, nil
}

// Inverse returns the table the other way round, in which the output is the
// input: at which load is the dropout 200 mV? What was said of its ends is not
// carried over. It is an error for a family of curves, and for an output that
// does not rise from row to row, or fall.
func (t Table) Inverse() (Table, error) {
	k, err := t.output()
	if err != nil {
		return Table{}, err
	}
	in, out := t.columns[0], t.columns[k]
	if t.inputs > 1 {
		return Table{}, fmt.Errorf("%s: a family of curves has no inverse: write the rows of one curve into a table of their own", t.name)
	}
	c := out.curves[0]
	x, y := slices.Clone(c.x), slices.Clone(c.y)
	inputs, outputs := slices.Clone(c.inputsOf(in)), slices.Clone(out.values)
	if y[0] > y[len(y)-1] {
		slices.Reverse(x)
		slices.Reverse(y)
		slices.Reverse(inputs)
		slices.Reverse(outputs)
	}
	for i := 1; i < len(y); i++ {
		if !(y[i-1] < y[i]) {
			return Table{}, fmt.Errorf("%s: %s has no inverse, because it neither rises all the way nor falls: it is %v at %s %v and %v at %v", t.name, out.name, outputs[i-1], in.name, inputs[i-1], outputs[i], inputs[i])
		}
	}
	first, second := out, in
	first.values, first.curves = outputs, nil
	second.values = inputs
	second.curves = []curve{{x: y, y: x, from: outputs[0], to: outputs[len(outputs)-1]}}
	return Table{name: t.name, hash: t.hash, columns: []column{first, second}, inputs: 1}, nil
}

// inputsOf returns the inputs of the rows that the curve has: those whose
// output is not blank.
func (c curve) inputsOf(in column) []units.Quantity {
	all := numbersOf(in.values...)
	found := make([]units.Quantity, len(c.x))
	for i, k := 0, 0; i < len(c.x); i, k = i+1, k+1 {
		for all[k] != c.x[i] {
			k++
		}
		found[i] = in.values[k]
	}
	return found
}

// Expect checks, for a function that takes the table as an argument, that
// there is one and that its columns are of the kinds of these units, the
// output last: Expect("DCBias", "V", "%").
func (t Table) Expect(argument string, units ...string) error {
	if !t.Given() {
		return fmt.Errorf("%s is not given: write a table whose columns are in %s, such as Table(\"file.csv\") or table.Text(\"…\")", argument, words(units, "and"))
	}
	out, err := t.output()
	if err != nil {
		return fmt.Errorf("%s: %w", argument, err)
	}
	if t.inputs != len(units)-1 {
		return fmt.Errorf("%s: %s has %s before the output, and %s needed, in %s: %s", argument, t.name,
			count(t.inputs, "input"), countAre(len(units)-1), words(units[:len(units)-1], "and"), inputAdvice(len(units)-1))
	}
	for i, unit := range units {
		k := i
		if i == t.inputs {
			k = out
		}
		one, err := oneOf(unit)
		if err != nil {
			return fmt.Errorf("%s: %w", argument, err)
		}
		if c := t.columns[k]; !sameKind(c.one, one) {
			return fmt.Errorf("%s: column %d of %s (%s) is in %s; it must be in %s, or in another unit of that kind", argument, k+1, t.name, c.name, c.unit, unit)
		}
	}
	return nil
}

func inputAdvice(inputs int) string {
	if inputs == 1 {
		return "write the rows of one curve, with rising inputs"
	}
	return "write the second input into the second column, the same in every row of one curve"
}

// output is the column that is read.
func (t Table) output() (int, error) {
	switch {
	case !t.Given():
		return 0, fmt.Errorf("no table is given: write Table(\"file.csv\") or table.Text(\"…\")")
	case t.chosen > 0:
		return t.chosen, nil
	case len(t.columns)-t.inputs > 1:
		return 0, fmt.Errorf("%s has %s: say which one with Of(%q)", t.name, count(len(t.columns)-t.inputs, "output"), t.columns[t.inputs].name)
	}
	return t.inputs, nil
}

// find returns the place of the column of that name.
func (t Table) find(name string) (int, error) {
	if !t.Given() {
		return 0, fmt.Errorf("no table is given: write Table(\"file.csv\") or table.Text(\"…\")")
	}
	nearest, best := 0, -1
	for i, c := range t.columns {
		if c.name == name {
			return i, nil
		}
		if d := levenshtein.Distance(strings.ToLower(name), strings.ToLower(c.name), nil); best < 0 || d < best {
			nearest, best = i, d
		}
	}
	if near := t.columns[nearest].name; best <= 1+len(near)/3 {
		return 0, fmt.Errorf("%s has no column %q: did you mean %q? It has %s", t.name, name, near, t.list(0))
	}
	return 0, fmt.Errorf("%s has no column %q: it has %s", t.name, name, t.list(0))
}

// list names the columns from one on.
func (t Table) list(from int) string { return words(t.Columns()[from:], "and") }

func words(list []string, last string) string {
	const most = 12
	if len(list) > most {
		return strings.Join(list[:most], ", ") + fmt.Sprintf(" %s %d more", last, len(list)-most)
	}
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " " + last + " " + list[len(list)-1]
}

func count(n int, what string) string {
	if n == 1 {
		return "one " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func countAre(n int) string {
	if n == 1 {
		return "one is"
	}
	return fmt.Sprintf("%d are", n)
}

// sameKind reports whether two values can stand in one column. Of plain
// quantities the coherent unit counts too, which tells Ω from Ω/sq.
func sameKind(x, y units.Quantity) bool {
	return x.Dim() == y.Dim() && (x.Dim().Kind() != units.PlainScale || x.SIUnit() == y.SIUnit())
}

// numbersOf gives the numbers that units.Lanewise works on. The values are
// exact.
func numbersOf(values ...units.Quantity) []float64 {
	var numbers []float64
	units.Everywhere(func(x []float64) bool {
		numbers = slices.Clone(x)
		return true
	}, values...)
	return numbers
}

// notAboveZero says why a value has no place on a logarithmic axis; "" where
// it has one.
func (c column) notAboveZero(v units.Quantity) string {
	if argument.NotAbove(v, c.one.Sub(c.one), v) == nil {
		return ""
	}
	return fmt.Sprintf("%s is %v, which no logarithmic axis has: take log from the heading, or leave the value out", c.name, v)
}

// noLog says why a column cannot have a logarithmic axis.
func (c column) noLog() string {
	switch c.one.Dim().Kind() {
	case units.PointScale:
		return c.name + " is a temperature, which has no logarithm: take log from the heading"
	case units.LevelScale, units.GainScale:
		return c.name + " is in " + c.unit + ", which is a logarithm already: take log from the heading"
	}
	return ""
}
