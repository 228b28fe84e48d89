package inverting

import (
	"fmt"
	"math"
)

// circuit is a stage whose output a large capacitor holds; the coupling
// capacitor is as large as it is. It shares nothing with the formulas: it
// integrates the equations of inductors and coupling capacitor in small steps,
// by the midpoint rule, and finds the rest of the rectifier as it comes.
//
// Without coupling capacitor (cc is 0) it is an inverting stage, whose one
// inductor is i1. m is the mutual inductance of both.
type circuit struct {
	in, out, f              float64
	l1, l2, m, cc           float64
	on, rect, diode, r1, r2 float64
	reverse                 bool
	steps                   int
}

type state struct{ i1, i2, v float64 }

func (a state) add(b state, h float64) state { return state{a.i1 + h*b.i1, a.i2 + h*b.i2, a.v + h*b.v} }

// slope is the derivative of the state with the switch on, the rectifier
// conducting, or neither.
func (c circuit) slope(x state, phase byte) state {
	both := x.i1 + x.i2
	if c.cc == 0 {
		switch phase {
		case 'n':
			return state{i1: (c.in - x.i1*(c.on+c.r1)) / c.l1}
		case 'f':
			return state{i1: -(c.out + c.diode + x.i1*(c.rect+c.r1)) / c.l1}
		}
		return state{}
	}
	det := c.l1*c.l2 - c.m*c.m
	// u1 and u2 are the voltages across the two inductances; i2 flows from
	// ground to the rectifier's anode.
	var u1, u2, icc float64
	switch phase {
	case 'n': // the switch node is at ground, the anode at −v
		u1 = c.in - x.i1*c.r1 - both*c.on
		u2 = x.v - both*c.on - x.i2*c.r2
		icc = -x.i2
	case 'f': // the anode is at the output
		anode := c.out + c.diode + both*c.rect
		u1 = c.in - x.i1*c.r1 - x.v - anode
		u2 = -anode - x.i2*c.r2
		icc = x.i1
	default: // one current goes round through both: i2 = −i1
		d := (c.in - x.v - x.i1*c.r1 - x.i1*c.r2) / (c.l1 + c.l2 - 2*c.m)
		return state{d, -d, x.i1 / c.cc}
	}
	return state{(c.l2*u1 - c.m*u2) / det, (c.l1*u2 - c.m*u1) / det, icc / c.cc}
}

// sample is one step of a period: the mean state in it and its phase.
type sample struct {
	state
	h     float64
	phase byte
}

// period integrates one period from x.
func (c circuit) period(duty float64, x state, keep bool) (state, []sample) {
	var samples []sample
	part := func(from, to float64, phase byte) {
		n := max(1, int(math.Ceil((to-from)*float64(c.steps))))
		h := (to - from) / c.f / float64(n)
		for range n {
			p := phase
			if p == 'f' && !c.reverse && x.i1+x.i2 <= 0 {
				p = 'r'
			}
			next := x.add(c.slope(x.add(c.slope(x, p), h/2), p), h)
			if p == 'f' && !c.reverse && next.i1+next.i2 < 0 {
				// It came to rest within this step.
				s := (x.i1 + x.i2) / (x.i1 + x.i2 - next.i1 - next.i2)
				middle := x.add(state{next.i1 - x.i1, next.i2 - x.i2, next.v - x.v}, s)
				middle.i2 = -middle.i1
				if c.cc == 0 {
					middle.i1, middle.i2 = 0, 0
				}
				if keep {
					samples = append(samples, sample{middle.add(state{middle.i1 - x.i1, middle.i2 - x.i2, middle.v - x.v}, -0.5), s * h, p})
				}
				rest := middle.add(c.slope(middle, 'r'), (1-s)*h)
				if keep {
					samples = append(samples, sample{middle, (1 - s) * h, 'r'})
				}
				x = rest
				continue
			}
			if keep {
				samples = append(samples, sample{x.add(state{next.i1 - x.i1, next.i2 - x.i2, next.v - x.v}, 0.5), h, p})
			}
			x = next
		}
	}
	part(0, duty, 'n')
	part(duty, 1, 'f')
	return x, samples
}

// settled finds the state at the start of a period that is that at its end: by
// Newton's method on the three numbers, with differences as derivatives.
func (c circuit) settled(duty float64, x state) state {
	off := func(x state) [3]float64 {
		e, _ := c.period(duty, x, false)
		return [3]float64{e.i1 - x.i1, e.i2 - x.i2, e.v - x.v}
	}
	n := 3
	if c.cc == 0 {
		n = 1
	}
	for range 40 {
		f := off(x)
		size := math.Abs(f[0]) + math.Abs(f[1]) + math.Abs(f[2])/10
		if size < 1e-9 {
			break
		}
		var j [3][4]float64
		for k := range n {
			d := [3]float64{1e-5, 1e-5, 1e-4}
			y := x
			*[]*float64{&y.i1, &y.i2, &y.v}[k] += d[k]
			g := off(y)
			for r := range n {
				j[r][k] = (g[r] - f[r]) / d[k]
			}
		}
		for r := range n {
			j[r][3] = -f[r]
		}
		d, ok := solve(j, n)
		if !ok {
			x, _ = c.period(duty, x, false)
			continue
		}
		// A whole step, or what of it brings the ends nearer.
		better := false
		for part := 1.0; part > 1e-3 && !better; part /= 2 {
			next := x.add(state{d[0], d[1], d[2]}, part)
			if c.cc == 0 && !c.reverse {
				next.i1 = math.Max(0, next.i1)
			}
			if g := off(next); math.Abs(g[0])+math.Abs(g[1])+math.Abs(g[2])/10 < size {
				x, better = next, true
			}
		}
		if !better {
			x, _ = c.period(duty, x, false)
		}
	}
	return x
}

// solve is Gauss's elimination of n equations.
func solve(j [3][4]float64, n int) (d [3]float64, ok bool) {
	for k := range n {
		p := k
		for r := k; r < n; r++ {
			if math.Abs(j[r][k]) > math.Abs(j[p][k]) {
				p = r
			}
		}
		if math.Abs(j[p][k]) < 1e-12 {
			return d, false
		}
		j[k], j[p] = j[p], j[k]
		for r := range n {
			if r != k {
				g := j[r][k] / j[k][k]
				for col := k; col < 4; col++ {
					j[r][col] -= g * j[k][col]
				}
			}
		}
	}
	for k := range n {
		d[k] = j[k][3] / j[k][k]
	}
	return d, true
}

// at finds the duty at which the rectifier's mean current is the load.
func (c circuit) at(load, guess float64) (duty float64, samples []sample) {
	x := state{v: c.in}
	given := func(duty float64) float64 {
		x = c.settled(duty, x)
		_, samples = c.period(duty, x, true)
		return mean(samples, func(s sample) float64 { return s.if_('f', s.i1+s.i2) })
	}
	a, b := guess*0.8, math.Min(guess*1.25, (1+guess)/2)
	fa, fb := given(a)-load, given(b)-load
	if fa > 0 || fb < 0 {
		panic(fmt.Sprint("no duty between ", a, " and ", b, ": ", fa, " to ", fb))
	}
	// The chord's zero, with the weight of an end that stays halved.
	for range 80 {
		m := b - fb*(b-a)/(fb-fa)
		fm := given(m) - load
		switch {
		case math.Abs(fm) < 1e-7*load:
			return m, samples
		case fm < 0:
			a, fa, fb = m, fm, fb/2
		default:
			b, fb, fa = m, fm, fa/2
		}
		if b-a < 1e-9 {
			return m, samples
		}
	}
	panic("no duty")
}

func (s sample) if_(phase byte, x float64) float64 {
	if s.phase == phase {
		return x
	}
	return 0
}

func mean(samples []sample, f func(sample) float64) float64 {
	sum, time := 0.0, 0.0
	for _, s := range samples {
		sum += f(s) * s.h
		time += s.h
	}
	return sum / time
}

func rms(samples []sample, f func(sample) float64) float64 {
	return math.Sqrt(mean(samples, func(s sample) float64 { return f(s) * f(s) }))
}

func span(samples []sample, f func(sample) float64) (least, most float64) {
	least, most = math.Inf(1), math.Inf(-1)
	for _, s := range samples {
		least, most = math.Min(least, f(s)), math.Max(most, f(s))
	}
	return least, most
}

// charge is what a capacitor takes and gives that carries what alternates.
func charge(samples []sample, f func(sample) float64) float64 {
	average, sum, least, most := mean(samples, f), 0.0, 0.0, 0.0
	for _, s := range samples {
		sum += (f(s) - average) * s.h
		least, most = math.Min(least, sum), math.Max(most, sum)
	}
	return most - least
}
