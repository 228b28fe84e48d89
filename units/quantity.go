package units

// Quantity is a number with its dimension. It is a small immutable value;
// the zero Quantity is the constant 0, which takes the dimension of whatever
// it is added to or compared with (but never becomes a temperature point or
// a level).
//
// Arithmetic is by methods, which panic with *Error where the operation makes
// no sense: the engine turns that panic into an error of the cell.
type Quantity struct {
	v float64   // in coherent SI; kelvin for a point; decibels for a gain; decibels over the coherent SI unit for a level
	d Dim       // dimension, kind, computed mark
	u *Unit     // the unit it was given or asked for in; nil: the preferred one
	e *Ensemble // spread; nil for an exact value
}

// Number returns the plain number x. Number(0) is not the wild constant 0:
// use Quantity{} for that.
func Number(x float64) Quantity { return Quantity{v: x, d: computedMark} }

// Dim returns the dimension and scale.
func (a Quantity) Dim() Dim { return a.d &^ computedMark }

// Mul returns a · b.
func (a Quantity) Mul(b Quantity) Quantity {
	if d, ok := addExponents(a.d, b.d); ok && (a.d|b.d)&kindMask == 0 && a.u == nil && b.u == nil && a.e == nil && b.e == nil {
		return Quantity{v: a.v * b.v, d: d | computedMark}
	}
	return mulSlow(a, b)
}

// Add returns a + b.
func (a Quantity) Add(b Quantity) Quantity {
	if (a.d^b.d)&^computedMark|(a.d|b.d)&kindMask == 0 && a.u == b.u && a.e == nil && b.e == nil {
		return Quantity{v: a.v + b.v, d: a.d | computedMark, u: a.u}
	}
	return addSlow(a, b)
}
