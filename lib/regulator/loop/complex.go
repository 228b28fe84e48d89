package loop

import "math"

// number is a complex number. Go's own are not used because the engine, when
// it tells a function step by step, computes this source again and has none.
type number struct{ re, im float64 }

func (a number) plus(b number) number { return number{a.re + b.re, a.im + b.im} }

func (a number) times(b number) number {
	return number{a.re*b.re - a.im*b.im, a.re*b.im + a.im*b.re}
}

// inverse is 1/a; its size is divided by twice, so that no square leaves the
// range of float64.
func (a number) inverse() number {
	size := math.Hypot(a.re, a.im)
	return number{a.re / size / size, -a.im / size / size}
}

// response is the logarithm of a complex gain, the size's and the phase.
// Factors add up to it; none turns by more than a half, so that the sum
// neither jumps by a turn nor leaves the range of float64.
type response struct{ size, phase float64 }

func (r response) times(a number) response {
	return response{r.size + math.Log(math.Hypot(a.re, a.im)), r.phase + math.Atan2(a.im, a.re)}
}

func (r response) over(a number) response {
	return response{r.size - math.Log(math.Hypot(a.re, a.im)), r.phase - math.Atan2(a.im, a.re)}
}

// decibels are the size of a response.
func (r response) decibels() float64 { return 20 / math.Ln10 * r.size }
