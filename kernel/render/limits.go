package render

import (
	"math"
	"strconv"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// spreadText is the limits of a value, "4.832 … 5.149 V"; "" for an exact one.
func spreadText(s *note.Spread) string {
	if s == nil || s.Low.Same(s.High) {
		return ""
	}
	return Limits(s.Low, s.High)
}

// EntryLimits writes the limits of an entry as they stand beside its value;
// those of an input stand as they were typed.
func EntryLimits(e *note.Entry) string {
	t := spreadText(e.Spread)
	if t == "" || e.Form != note.FormInput {
		return t
	}
	low, high := e.Spread.Low, e.Spread.High
	if texts := units.Column(0, low, high); significant(texts[0]) <= typedFigures && significant(texts[1]) <= typedFigures {
		return limitsAt(0, low, high)
	}
	return t
}

// limitsOf is the limits of a part of a value.
func limitsOf(v *cell.View) string {
	q, ok := v.Quantity.(units.Quantity)
	if !ok {
		return ""
	}
	low, high, ok := q.Limits()
	if !ok || low.Same(high) {
		return ""
	}
	return Limits(low, high)
}

// typedFigures is how many significant figures of a limit people type.
const typedFigures = 6

// Limits writes low … high: four significant digits each, or as many as it
// takes to show how far apart they are, and no zeros behind them that nobody
// computed.
func Limits(low, high units.Quantity) string {
	full := units.Column(0, low, high)
	lo, hi := magnitude(full[0]), magnitude(full[1])
	digits := shownDigits
	for ; digits < 12; digits++ {
		texts := units.Column(digits, low, high)
		off := max(math.Abs(magnitude(texts[0])-lo), math.Abs(magnitude(texts[1])-hi))
		// Rounding may reach the next prefix; then the numbers say nothing.
		if !sameUnit(texts[1], full[1]) || !(off > (hi-lo)/20) {
			break
		}
	}
	return limitsAt(digits, low, high)
}

// limitsAt writes low … high on one scale, the unit once. Where one is much
// smaller than the other, or less than a tenth on its scale, each has its own
// prefix: 250 µA … 30 mA, 30 mA … 1.5 A.
func limitsAt(digits int, low, high units.Quantity) string {
	texts := units.Column(digits, low, high)
	least, most := math.Abs(low.SI()), math.Abs(high.SI())
	if least > most {
		least, most = most, least
	}
	small := least < most/100 || math.Abs(magnitude(texts[0])) < 0.1 || math.Abs(magnitude(texts[1])) < 0.1
	if least > 0 && small && low.Dim().Kind() == units.PlainScale {
		return between(low.Text(digits), high.Text(digits))
	}
	return between(texts[0], texts[1])
}

// between joins two values, the unit once where it is the same.
func between(low, high string) string {
	if sameUnit(low, high) {
		low, _, _ = strings.Cut(low, " ")
	}
	return low + " … " + high
}

func sameUnit(a, b string) bool {
	_, ua, _ := strings.Cut(a, " ")
	_, ub, _ := strings.Cut(b, " ")
	return ua == ub
}

// magnitude is the number of a value as it is written, NaN for none.
func magnitude(text string) float64 {
	number, _, _ := strings.Cut(text, " ")
	x, err := strconv.ParseFloat(strings.Replace(number, "−", "-", 1), 64)
	if err != nil {
		return math.NaN()
	}
	return x
}

// significant counts the significant figures of a value as it is written.
func significant(text string) int {
	number, _, _ := strings.Cut(text, " ")
	number, _, _ = strings.Cut(number, "e")
	n := 0
	for _, r := range number {
		if r >= '0' && r <= '9' && (n > 0 || r != '0') {
			n++
		}
	}
	return n
}

// roughParts says that the limits of the parts of a value may be exceeded:
// only those of a name are searched for.
func roughParts(v *cell.View) []labelled {
	for i := range v.Items {
		if rough(&v.Items[i].Value) {
			return []labelled{ours("limits", "of its parts at least as far as shown: give one a name of its own to have its limits searched")}
		}
	}
	return nil
}

// rough: corners and sweeps may not have found the limits of v or of a part.
func rough(v *cell.View) bool {
	if q, ok := v.Quantity.(units.Quantity); ok {
		return q.Inside() || q.Sampled()
	}
	for i := range v.Items {
		if rough(&v.Items[i].Value) {
			return true
		}
	}
	return false
}
