package table

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"ohmwright/units"
)

var (
	plainNumber = regexp.MustCompile(`^[-+−]?(\d+\.?\d*|\.\d+)([eE][-+]?\d+)?$`)
	withNumber  = regexp.MustCompile(`^[-+−]?\.?\d`)
	thousands   = regexp.MustCompile(`^[-+−]?\d+[ '’_\x{a0}\x{2009}\x{202f}]\d`)
	markingCode = regexp.MustCompile(`^(\d+\p{L}\d*|\p{L}\d+)\p{L}?$`)
)

// entry reads a cell of the column; it is not blank. Decimal commas were
// turned into points where the file has them.
func (c column) entry(text string) (units.Quantity, error) {
	switch {
	case strings.Contains(text, ","):
		return none, fmt.Errorf("%s has a comma: write decimals with a point, as in 1.5, and thousands without a sign between", quoted(text))
	case thousands.MatchString(text):
		return none, fmt.Errorf("%s has a sign between its digits: write thousands without one, as in 1000 or 1e3", quoted(text))
	case strings.Contains(text, "±"), strings.Contains(text, "+/-"):
		return none, fmt.Errorf("%s has a tolerance, and the values of a table are exact: write the value alone, and the tolerance behind what At returns", quoted(text))
	case strings.Contains(text, "#"):
		return none, fmt.Errorf("%s has a comment: write comments into lines of their own that start with #", quoted(text))
	case plainNumber.MatchString(text):
		if c.unit == "1" {
			return c.parsed(text, text)
		}
		return c.parsed(text, text+" "+c.unit)
	}
	q, err := units.Parse(text)
	if err == nil && sameKind(q, c.one) {
		return c.sized(text, q)
	}
	if c.one.Dim().Kind() == units.PlainScale && markingCode.MatchString(text) {
		if code, wrong := units.ParseRKM(text, c.one.SIUnit()); wrong == nil {
			if code.HasSpread() {
				return none, fmt.Errorf("%s has a tolerance letter, and the values of a table are exact: write the value alone, and the tolerance behind what At returns", quoted(text))
			}
			return c.sized(text, code)
		}
	}
	switch {
	case err == nil:
		return none, fmt.Errorf("%s is not of the kind of %s: write a plain number in %s, or a value in another unit of that kind", quoted(text), c.unit, c.unit)
	case !withNumber.MatchString(text):
		return none, fmt.Errorf("%s is no number: write a plain number in %s, or leave an output blank where nothing is known", quoted(text), c.unit)
	}
	return none, err
}

// parsed reads a number with the unit of the column behind it.
func (c column) parsed(text, withUnit string) (units.Quantity, error) {
	q, err := units.Parse(withUnit)
	if err != nil {
		return none, err
	}
	return c.sized(text, q)
}

// sized keeps to sizes with which no interpolation leaves the range of
// float64.
func (c column) sized(text string, q units.Quantity) (units.Quantity, error) {
	if _, _, ok := units.Everywhere(func(x []float64) bool {
		size := max(x[0], -x[0])
		return size == 0 || 1e-30 < size && size < 1e30
	}, q); !ok {
		return none, fmt.Errorf("%s is beyond what a table holds, 1e-30 to 1e30 in SI units: check its prefix and exponent", quoted(text))
	}
	if c.log {
		if why := c.notAboveZero(q); why != "" {
			return none, errors.New(why)
		}
	}
	return q, nil
}
