package render

import (
	"math"
	"strconv"
)

// Deviation writes how far a chosen value is from the ideal one.
func Deviation(d float64) string {
	switch {
	case math.Abs(d) < 1e-11:
		return "exact"
	case math.IsNaN(d) || math.IsInf(d, 0):
		return "no ratio"
	}
	return Percent(d, 1)
}

// Percent writes a relative difference: one decimal, or as many as show so
// many figures of a small one.
func Percent(d float64, figures int) string {
	p := d * 100
	format, places := byte('f'), 1
	switch size := math.Abs(p); {
	case size >= 1e6:
		format, places = 'g', 3
	case size > 0 && size < math.Pow10(figures-2)-0.05: // what rounds to more shows that with one decimal
		places = min(9, int(math.Ceil(-math.Log10(size)))+figures-1)
	}
	return Signed(strconv.FormatFloat(p, format, places, 64)) + " %"
}

// Signed puts the sign before a difference that has been written.
func Signed(text string) string {
	if rest, negative := cutMinus(text); negative {
		return "−" + rest
	}
	return "+" + text
}
