package render

import (
	"strconv"
	"strings"

	"ohmwright/lib/powertree"
	"ohmwright/units"
)

// treeName says what a power tree shows.
func treeName(t *powertree.Result) string {
	name := "power tree of " + strconv.Itoa(len(t.Rails)) + " rails"
	if len(t.Rails) == 1 {
		name = "power tree of one rail"
	}
	if n := overLimit(t); n > 0 {
		name += ", " + strconv.Itoa(n) + " over its limit"
	}
	return name
}

func overLimit(t *powertree.Result) (n int) {
	for _, r := range t.Rails {
		if low, ok := leastOf(r.LeastLeft); ok && low.SI() < 0 {
			n++
		}
	}
	return n
}

// leastOf is the least of a value over all cases; false where it is not set.
func leastOf(x units.Quantity) (units.Quantity, bool) {
	if x == (units.Quantity{}) {
		return x, false
	}
	if low, _, ok := x.Limits(); ok {
		return low, true
	}
	return x, true
}

// mostOf is the largest.
func mostOf(x units.Quantity) units.Quantity {
	if _, high, ok := x.Limits(); ok {
		return high
	}
	return x
}

// rounded is a value for people, without its spread.
func rounded(x units.Quantity) string { return units.Column(4, units.Nominal(x))[0] }

// leftText is what a rail has left of its limit in its worst case.
func leftText(r powertree.RailResult) string {
	low, ok := leastOf(r.LeastLeft)
	switch {
	case !ok:
		return "no limit"
	case low.SI() < 0:
		return "over by " + rounded(low.Neg())
	}
	return rounded(low)
}

// treeLines are a power tree in words: its rails from the source on, each
// with the worst over modes and cases, and its modes.
func treeLines(t *powertree.Result) []labelled {
	rails := [][]string{{"rail", "voltage", "most current", "in", "most heat", "left of limit"}}
	for _, r := range t.Rails {
		heat := ""
		if r.Depth > 0 {
			heat = rounded(mostOf(r.MostHeat))
		}
		rails = append(rails, []string{strings.Repeat("· ", r.Depth) + oneLine(r.Name), rounded(r.Voltage), rounded(mostOf(r.MostOut)), oneLine(r.MostOutIn), heat, leftText(r)})
	}
	modes := [][]string{{"mode", "time a day", "from the source", "power", "in converters", "energy a day"}}
	for _, m := range t.Modes {
		modes = append(modes, []string{oneLine(m.Name), rounded(m.Time), rounded(m.Current), rounded(m.Power), rounded(m.Heat), rounded(m.Energy)})
	}
	return []labelled{{label: "rails", rows: rails}, {label: "modes", rows: modes}, users("a day", rounded(t.Energy)+", "+rounded(t.Charge)+" from the source, "+rounded(t.MeanPower)+" on average")}
}

// treeAlt describes the picture of a power tree in one line.
func treeAlt(t *powertree.Result, mode int) string {
	parts := []string{treeName(t) + " in mode " + oneLine(t.Modes[mode].Name)}
	for _, r := range t.Rails {
		f := r.Flows[mode]
		part := oneLine(r.Name) + " at " + rounded(r.Voltage)
		if r.From != "" {
			part += " from " + oneLine(r.From)
		}
		part += ": " + rounded(f.Out) + ", " + rounded(f.Power)
		if r.Depth > 0 {
			part += ", heat " + rounded(f.Heat)
		}
		if left := leftText(r); strings.HasPrefix(left, "over") {
			part += ", " + left
		}
		parts = append(parts, part)
	}
	return strings.Join(parts, "; ")
}
