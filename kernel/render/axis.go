package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"

	"ohmwright/units"
)

// axis is one axis of a figure: where it goes from and to, in its unit, and
// what stands at it.
type axis struct {
	label     string
	low, high float64
	log       bool
	ticks     []plot.Tick
}

// place is where a number stands on an even scale. The scale of a logarithmic
// axis is made here and not by plot.LogScale, with which the plot leaves room for
// the label at the mean of the ends, near one of them.
func (a axis) place(v float64) float64 {
	if a.log {
		return math.Log10(v)
	}
	return v
}

// inOneUnit gives values, and marks beside them, as numbers in one unit with
// one prefix: that of the largest value, or on a logarithmic axis that of the
// middle. Marks do not choose it.
func inOneUnit(log bool, values, marks []units.Quantity) (numbers []float64, unit string, err error) {
	like := values[0]
	if log {
		least, most := math.Inf(1), 0.0
		for _, q := range values {
			least, most = min(least, q.SI()), max(most, q.SI())
		}
		middle := like.WithSI(math.Sqrt(least) * math.Sqrt(most))
		if _, unit := middle.Parts(12); unit != "" {
			like = middle.In(unit)
		}
	}
	texts := units.Column(12, inUnitOf(like, values)...)
	_, unit, _ = strings.Cut(texts[0], " ")
	if unit != "" {
		like = like.In(unit)
	}
	texts = append(texts, units.Column(12, inUnitOf(like, marks)...)...)
	for _, t := range texts {
		x := magnitude(t)
		if math.IsNaN(x) || math.IsInf(x, 0) || !sameUnit(t, texts[0]) {
			return nil, "", fmt.Errorf("%s has no place on an axis in %s", t, unit)
		}
		numbers = append(numbers, x)
	}
	return numbers, unit, nil
}

// inUnitOf gives values of the kind of one in its unit; others stay.
func inUnitOf(like units.Quantity, qs []units.Quantity) []units.Quantity {
	out := make([]units.Quantity, len(qs))
	for i, q := range qs {
		if out[i] = q; q.Dim() == like.Dim() && q.SIUnit() == like.SIUnit() {
			out[i] = like.WithSI(q.SI())
		}
	}
	return out
}

// newAxis makes the axis of numbers from low to high. A wide one goes on to
// the next ticks on both sides.
func newAxis(name, unit string, low, high float64, log, wide bool) axis {
	a := axis{label: name, low: low, high: high, log: log}
	if unit != "" {
		a.label += " in " + unit
	}
	switch {
	case low < high:
	case log:
		a.low, a.high = low/2, high*2
	case low == 0:
		a.low, a.high = -1, 1
	default:
		a.low, a.high = low-math.Abs(low)/10, high+math.Abs(high)/10
	}
	if wide && log {
		a.low, a.high = nextLog(a.low, -1), nextLog(a.high, 1)
	} else if wide {
		step, _ := tickStep(a.low, a.high)
		a.low, a.high = step*math.Floor(a.low/step+1e-9), step*math.Ceil(a.high/step-1e-9)
	}
	a.ticks = ticks{}.Ticks(a.low, a.high)
	if log {
		a.ticks = logTicks(a.low, a.high)
	}
	return a
}

// tickStep is the distance of ticks at 1, 2 or 5 times a power of ten, of
// which at most eight go from low to high; decimals says how many it takes
// to write them.
func tickStep(low, high float64) (step float64, decimals int) {
	least := (high - low) / 8
	exponent := math.Floor(math.Log10(least))
	step = math.Pow(10, exponent)
	for _, m := range []float64{2, 5, 10} {
		if step < least*(1-1e-9) {
			step = m * math.Pow(10, exponent)
		}
	}
	if step >= 10*math.Pow(10, exponent) {
		exponent++
	}
	return step, int(max(0, -exponent))
}

// nextLog is the next of 1, 2 and 5 times a power of ten below or above x, or
// x itself.
func nextLog(x float64, side int) float64 {
	exponent := math.Floor(math.Log10(x))
	steps := []float64{0.5, 1, 2, 5, 10, 20}
	if side > 0 {
		for _, m := range steps {
			if v := m * math.Pow(10, exponent); v >= x*(1-1e-9) {
				return v
			}
		}
	}
	best := x
	for _, m := range steps {
		if v := m * math.Pow(10, exponent); v <= x*(1+1e-9) {
			best = v
		}
	}
	return best
}

// logTicks stand at decades, with names at each, or at every second or so
// where there are many; in fewer than two decades also at 2 and 5. A stretch
// that is too short for these has the ticks of a linear axis.
func logTicks(low, high float64) []plot.Tick {
	first, last := math.Floor(math.Log10(low)-1e-9), math.Ceil(math.Log10(high)+1e-9)
	every := math.Ceil((last - first) / 8)
	named := map[float64]bool{1: true}
	if math.Log10(high/low) < 2 {
		named[2], named[5] = true, true
	}
	powers := first < -4 || last > 5
	var out []plot.Tick
	names := 0
	for e := first; e <= last; e++ {
		for m := 1.0; m < 10; m++ {
			v := m * math.Pow(10, e)
			if v < low*(1-1e-9) || v > high*(1+1e-9) || m > 1 && every > 1 {
				continue
			}
			label := ""
			if named[m] && math.Mod(e-first, every) == 0 {
				label = logLabel(m, int(e), powers)
				names++
			}
			out = append(out, plot.Tick{Value: v, Label: label})
		}
	}
	if names < 3 && high/low < 20 {
		return ticks{}.Ticks(low, high)
	}
	return out
}

var superscripts = strings.NewReplacer("-", "⁻", "0", "⁰", "1", "¹", "2", "²", "3", "³", "4", "⁴", "5", "⁵", "6", "⁶", "7", "⁷", "8", "⁸", "9", "⁹")

func logLabel(m float64, exponent int, powers bool) string {
	if powers {
		text := "10" + superscripts.Replace(strconv.Itoa(exponent))
		if m > 1 {
			text = strconv.Itoa(int(m)) + "·" + text
		}
		return text
	}
	return strconv.FormatFloat(m*math.Pow(10, float64(exponent)), 'f', max(0, -exponent), 64)
}
