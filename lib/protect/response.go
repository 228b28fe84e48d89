package protect

import "math"

// matrix is a linear circuit of three states: x' = m · x.
type matrix [3][3]float64

type state [3]float64

func (m matrix) times(x state) (y state) {
	for i := range y {
		y[i] = m[i][0]*x[0] + m[i][1]*x[1] + m[i][2]*x[2]
	}
	return y
}

// doubled is e^(2·A·t) − 1 for m = e^(A·t) − 1. Without the one, what is small
// keeps its digits.
func (m matrix) doubled() (d matrix) {
	for i := range d {
		for j := range d {
			d[i][j] = 2*m[i][j] + m[i][0]*m[0][j] + m[i][1]*m[1][j] + m[i][2]*m[2][j]
		}
	}
	return d
}

// response follows a circuit exactly, by its matrix exponential.
type response struct {
	circuit matrix
	weights state    // what is looked at is weights · x
	jumps   []matrix // e^(A·t) − 1 for t = least, 2·least, 4·least …
}

// Steps of a response: the shortest is short beside everything that happens,
// so that two terms of the exponential suffice.
const (
	fineSteps   = 40 // halvings of a step of the first part
	coarseSteps = 24 // doublings of it afterwards
	firstPart   = 128
)

func newResponse(circuit matrix, weights state, step float64) response {
	r := response{circuit: circuit, weights: weights}
	t := math.Ldexp(step, -fineSteps)
	var jump matrix
	for i := range jump {
		for j := range jump {
			second := 0.0
			for k := range circuit {
				second += circuit[i][k] * circuit[k][j]
			}
			jump[i][j] = t*circuit[i][j] + t*t/2*second
		}
	}
	for range fineSteps + coarseSteps + 1 {
		r.jumps = append(r.jumps, jump)
		jump = jump.doubled()
	}
	return r
}

func (r response) after(x state, jump int) state {
	d := r.jumps[jump].times(x)
	return state{x[0] + d[0], x[1] + d[1], x[2] + d[2]}
}

func (r response) output(x state) float64 {
	return r.weights[0]*x[0] + r.weights[1]*x[1] + r.weights[2]*x[2]
}

func (r response) rises(x state) bool { return r.output(r.circuit.times(x)) > 0 }

// largest is the largest output from x on, or 0, to which it settles. It goes
// in even steps through the first part, in which what rings is highest, and in
// ever longer steps through what creeps; where the output stops rising in a
// step it halves that.
func (r response) largest(x state) float64 {
	most := math.Max(0, r.output(x))
	for k := range firstPart + coarseSteps {
		jump := fineSteps + max(0, k-firstPart+1)
		next := r.after(x, jump)
		if r.rises(x) && !r.rises(next) {
			top := x
			for j := jump - 1; j >= 0; j-- {
				if half := r.after(top, j); r.rises(half) {
					top = half
				}
			}
			most = math.Max(most, r.output(top))
		}
		most = math.Max(most, r.output(next))
		x = next
	}
	return most
}
