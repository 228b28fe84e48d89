package units

// Everywhere looks for a case in which something does not hold of the numbers
// of values (in coherent SI; kelvin, decibels over the SI unit), the nominal
// case first. If there is one, ok is false, where says which ("where Vin is
// 18 V", nothing for the nominal one), and at is what the values are in it,
// exact. Unlike a comparison it decides nothing for all cases by the nominal
// one: checks of arguments are made with it.
func Everywhere(holds func(x []float64) bool, values ...Quantity) (where string, at []Quantity, ok bool) {
	x := make([]float64, len(values))
	for i, v := range values {
		x[i] = v.v
	}
	lane := -1
	var e *Ensemble
	if holds(x) {
		e = every(func(x []float64) float64 {
			if holds(x) {
				return 0
			}
			return 1
		}, values...)
		if e == nil {
			return "", nil, true
		}
		for i, failed := range e.lanes {
			if failed != 0 {
				lane, where = i, "where "+e.where(i)
				break
			}
		}
		if lane < 0 {
			return "", nil, true
		}
	}
	at = make([]Quantity, len(values))
	for i, v := range values {
		switch {
		case v.e == nil:
			at[i] = v
		case lane < 0:
			at[i] = v.exact()
		default:
			at[i] = (&Cases{study: e.study, set: e.set, like: e}).Pick(v, lane)
		}
	}
	return where, at, false
}
