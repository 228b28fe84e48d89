package units

import "strings"

// Everywhere reports whether something holds of the numbers of values (in
// coherent SI; kelvin, decibels over the SI unit) in every case, the nominal
// one first. If not, where is the case in which it does not, in words: "where
// Vin is 18 V"; "" for the nominal one. Unlike a comparison it decides nothing
// for all cases by the nominal one, so checks of arguments are made with it.
func Everywhere(holds func(x []float64) bool, values ...Quantity) (ok bool, where string) {
	x := make([]float64, len(values))
	for i, v := range values {
		x[i] = v.v
	}
	if !holds(x) {
		return false, ""
	}
	e := every(func(x []float64) float64 {
		if holds(x) {
			return 0
		}
		return 1
	}, values...)
	if e == nil {
		return true, ""
	}
	for i, failed := range e.lanes {
		if failed != 0 {
			return false, "where " + e.where(i)
		}
	}
	return true, ""
}

// NotePart tells the study of a, if it has one, that something does not come
// out alike in all cases, so that a note computes them one by one. where is
// what Everywhere said.
func (a Quantity) NotePart(text, where string) {
	if e := a.live(); e != nil {
		e.study.NoteSplit(text, strings.TrimPrefix(where, "where "))
	}
}
