package preferred

import (
	"fmt"
	"math"
	"sort"
	"strconv"
	"strings"

	"ohmwright/units"
)

// rounding is the relative difference below which a number is taken for a
// member: far below any tolerance, far above what arithmetic loses.
const rounding = 1e-9

// The sizes, in the unit of the value asked for, between which a choice is
// made.
const (
	smallest = 1e-30
	largest  = 1e30
)

// scale is the unit in which a choice is made: the one of the value asked
// for, because members are round numbers in it (2.2 Ah, not 8200 C).
type scale struct {
	unit string
	one  units.Quantity // 1 of the unit
}

// show gives x the unit of the scale, unless it has it already: asking for it
// again would fix the prefix.
func (s scale) show(x units.Quantity) units.Quantity {
	if x.Unit() == s.unit {
		return x
	}
	return units.In(x, s.unit)
}

// sizeOf gives the number of x in its own unit; what is done with it stands
// in use for the message.
func sizeOf(use string, x units.Quantity) (float64, scale, error) {
	switch x.Dim().Kind() {
	case units.PointScale:
		return 0, scale{}, &units.Error{
			Msg:  fmt.Sprintf("%s %v: a point on the temperature scale has no preferred number", use, x),
			Hint: "take a difference of temperatures, or the value of a part",
		}
	case units.LevelScale, units.GainScale:
		return 0, scale{}, &units.Error{
			Msg:  fmt.Sprintf("%s %v: a value in decibels has no preferred number", use, x),
			Hint: "turn it into a plain quantity first: Power(x), PowerRatio(g), VoltageRatio(g)",
		}
	}
	x = units.Nominal(x)
	si := x.SI()
	if math.IsNaN(si) || math.IsInf(si, 0) {
		return 0, scale{}, &units.Error{
			Msg:  fmt.Sprintf("%s %v: it is not a finite number", use, si),
			Hint: "check the formula it comes from for a division by zero",
		}
	}
	if si <= 0 {
		return 0, scale{}, &units.Error{
			Msg:  fmt.Sprintf("%s %v: it must be above zero", use, x),
			Hint: "check the sign of the formula it comes from, or take Abs(x)",
		}
	}
	unit := x.Unit()
	one, err := units.Parse("1 " + unit)
	if err != nil {
		return 0, scale{}, err
	}
	v := si / one.SI()
	if v < smallest || v > largest {
		return 0, scale{}, &units.Error{
			Msg:  fmt.Sprintf("%s %v: no part is that size", use, x),
			Hint: "choices are made from 1e-30 to 1e30 of its unit; check the prefix",
		}
	}
	return v, scale{unit, one}, nil
}

// ladder gives the members of a series rising from rung to rung, as numbers
// of one unit. The rungs of a series of the standard go on without end in
// both directions, rung 0 being 1; those of a stock go from 0 to len−1.
type ladder struct {
	decade []member         // of a series of the standard
	stock  []units.Quantity // of a stock
	scale  scale
	name   string
}

func (s Series) ladder(sc scale) (ladder, error) {
	if s.stock != "" {
		l := ladder{scale: sc, name: s.Name}
		for line := range strings.SplitSeq(s.stock, "\n") {
			q, err := units.Parse(line)
			if err != nil {
				return ladder{}, err
			}
			l.stock = append(l.stock, q)
		}
		if d := l.stock[0].Dim(); d != sc.one.Dim() {
			return ladder{}, &units.Error{
				Msg:  fmt.Sprintf("%s holds values such as %v; it has nothing in %s", s.Name, l.stock[0], sc.unit),
				Hint: "ask for a value of the kind that the stock holds",
			}
		}
		return l, nil
	}
	d, ok := decades[s.Name]
	if !ok {
		return ladder{}, &units.Error{
			Msg:  fmt.Sprintf("%q is not a preferred-number series", s.Name),
			Hint: "use E3, E6, E12, E24, E48, E96 or E192, or Stock for values of your own",
		}
	}
	return ladder{decade: d, scale: sc, name: s.Name}, nil
}

// has reports whether there is a rung i.
func (l ladder) has(i int) bool {
	return l.stock == nil || 0 <= i && i < len(l.stock)
}

// text writes rung i of an endless ladder: "1.91e3".
func (l ladder) text(i int) string {
	n := len(l.decade)
	p := (i%n + n) % n
	return l.decade[p].text + "e" + strconv.Itoa((i-p)/n)
}

// value is rung i as a number of the unit.
func (l ladder) value(i int) float64 {
	if l.stock != nil {
		return l.stock[i].SI() / l.scale.one.SI()
	}
	v, _ := strconv.ParseFloat(l.text(i), 64) // cannot fail: a member of the table and a small exponent
	return v
}

// quantity is rung i as a quantity: the float64 nearest to the decimal
// member in its unit.
func (l ladder) quantity(i int) (units.Quantity, error) {
	if l.stock != nil {
		return l.scale.show(l.stock[i]), nil
	}
	return units.Parse(strconv.FormatFloat(l.value(i), 'f', -1, 64) + " " + l.scale.unit)
}

// above returns the first rung with a value of at least v.
func (l ladder) above(v float64) int {
	if l.stock != nil {
		return sort.Search(len(l.stock), func(i int) bool { return l.value(i) >= v })
	}
	n := len(l.decade)
	start := int(math.Floor(math.Log10(v)))*n - 1 // log10 of a power of ten may come out below it
	return start + sort.Search(2*n+2, func(i int) bool { return l.value(start+i) >= v })
}

// ceil returns the lowest rung that is not below v, a rung within rounding
// counting as v itself.
func (l ladder) ceil(v float64) int { return l.above(v * (1 - rounding)) }

// floor returns the highest rung that is not above v, within rounding.
func (l ladder) floor(v float64) int {
	i := l.above(v * (1 + rounding))
	if l.has(i) && l.value(i) <= v*(1+rounding) {
		return i
	}
	return i - 1
}
