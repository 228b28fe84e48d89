package ripple

import "math"

// pulse is one case of a rectifier at a source with resistance, in numbers:
// voltages in amplitudes of the source, currents in ω · capacitance ·
// amplitude, and angles from the source's peak in place of times.
type pulse struct {
	kind   kind
	share  float64 // of the diodes in the amplitude
	lag    float64 // ω · resistance · capacitance
	taken  float64 // by the load, at the amplitude
	period float64 // from one pulse to the next

	sums                       int  // how many entries of the state are followed: the voltage alone, or all
	rows                       int  // of a step's extrapolation: 2 to find the way, 5 for all digits
	empty                      bool // a load of constant power has pulled the output to zero on the way
	settled                    bool // there is a state that repeats itself; the rest holds only then
	start, end                 float64
	peak, valley, ripple, mean float64
	average, highest           float64 // of the pulse's current; average over a period
	rms, reservoir             float64 // RMS currents over a period
}

// state is by how much the output is below the peak of source and diodes,
// which keeps the digits of a small ripple, and what is summed on the way: the
// output, the pulse's current and its square, the square of the reservoir's
// current.
type state [5]float64

// top is the highest that the output can be.
func (p *pulse) top() float64 { return 1 - p.share }

// below is by how much the source is below its peak.
func (p *pulse) below(x float64) float64 {
	half := math.Sin(x / 2)
	return 2 * half * half
}

func (p *pulse) load(v float64) float64 {
	switch p.kind {
	case ofPower:
		p.empty = p.empty || !(v > 0)
		return p.taken / v
	case ofResistance:
		return p.taken * v
	}
	return p.taken
}

func (p *pulse) current(x float64, y state) float64 { return (y[0] - p.below(x)) / p.lag }

func (p *pulse) slope(x float64, y state) state {
	i := p.current(x, y)
	v := p.top() - y[0]
	c := i - p.load(v)
	if p.sums == 1 {
		return state{-c}
	}
	return state{-c, v, i, i * i, c * c}
}

// step goes from x to x + h by Gragg's midpoint rule, in 2, 4 and more parts
// whose results are extrapolated to none: of tenth order with five rows.
func (p *pulse) step(x float64, y state, h float64) state {
	var row [5]state
	first := p.slope(x, y)
	for k := range p.rows {
		n := 2 * (k + 1)
		part := h / float64(n)
		before, now := y, y
		for i := range p.sums {
			now[i] += part * first[i]
		}
		for m := 1; m < n; m++ {
			s := p.slope(x+float64(m)*part, now)
			for i := range p.sums {
				before[i], now[i] = now[i], before[i]+2*part*s[i]
			}
		}
		last := p.slope(x+h, now)
		above := row[0]
		for i := range p.sums {
			now[i] = (before[i] + now[i] + part*last[i]) / 2
		}
		row[0] = now
		for j := 1; j <= k; j++ {
			ratio := float64(k+1) / float64(k+1-j)
			kept := row[j]
			for i := range p.sums {
				row[j][i] = row[j-1][i] + (row[j-1][i]-above[i])/(ratio*ratio-1)
			}
			above = kept
		}
	}
	return row[p.rows-1]
}

// conduct follows a pulse that starts at an angle before the peak to its end;
// seen is told of every step. It fails where the load pulls the output to
// zero meanwhile.
func (p *pulse) conduct(start float64, seen func(x float64, y state, h float64, next state)) (end float64, y state, ok bool) {
	most := math.Min(0.2, p.lag)
	p.empty = false
	parts := math.Max(4, math.Ceil(start/most))
	h := start / parts
	y[0] = p.below(start)
	x := -start
	for n := 0; x < math.Pi/2; n++ {
		if float64(n) == parts {
			x, h = 0, most
		}
		next := p.step(x, y, h)
		if p.empty || !(next[0] < p.top()) {
			return 0, y, false
		}
		if p.current(x+h, next) <= 0 && x+h > 0 {
			h, next = p.endWithin(x, y, h, next)
			if seen != nil {
				seen(x, y, h, next)
			}
			return x + h, next, true
		}
		if seen != nil {
			seen(x, y, h, next)
		}
		x, y = x+h, next
	}
	return 0, y, false
}

// endWithin is where, in a step that goes too far, the current comes down to
// zero: by Newton's rule, which comes from above and does not overshoot there.
func (p *pulse) endWithin(x float64, y state, h float64, next state) (float64, state) {
	before := math.Inf(1)
	for range 20 {
		falls := p.slope(x+h, next)[0] - math.Sin(x+h)
		back := p.current(x+h, next) * p.lag / falls
		// Near the end the last digits keep it from shrinking.
		if !(math.Abs(back) < before/2) || h-back <= 0 {
			break
		}
		before = math.Abs(back)
		h -= back
		next = p.step(x, y, h)
	}
	return h, next
}

// discharged is the output after the load alone has fed on it over an angle;
// below zero where it has run empty.
func (p *pulse) discharged(v, angle float64) float64 {
	switch p.kind {
	case ofPower:
		square := v*v - 2*p.taken*angle
		return math.Copysign(math.Sqrt(math.Abs(square)), square)
	case ofResistance:
		return v * math.Exp(-p.taken*angle)
	}
	return v - p.taken*angle
}

// droop is by how much the output falls in such a discharge.
func (p *pulse) droop(v, angle float64) float64 {
	switch p.kind {
	case ofPower:
		lost := 2 * p.taken * angle
		return lost / (v + math.Sqrt(math.Max(v*v-lost, 0)))
	case ofResistance:
		return -v * math.Expm1(-p.taken*angle)
	}
	return p.taken * angle
}

// next is the angle before the next peak at which the source meets the output
// that a pulse left at a depth; infinite where the reservoir runs empty before.
func (p *pulse) next(end, depth float64) float64 {
	v := p.top() - depth
	crossing := math.Acos(p.share)
	if !(p.discharged(v, p.period-crossing-end) > 0) {
		return math.Inf(1)
	}
	return root(0, crossing, func(start float64) float64 {
		return depth + p.droop(v, p.period-start-end) - p.below(start)
	})
}

// settle finds the state that repeats itself, the highest if there are two:
// a load of constant power has a second one, from which it falls.
func (p *pulse) settle() {
	excess := func(start float64) float64 {
		if start == 0 {
			return p.next(0, 0)
		}
		end, y, ok := p.conduct(start, nil)
		if !ok {
			return math.Inf(1)
		}
		return p.next(end, y[0]) - start
	}
	p.sums, p.rows = 1, 2
	const parts = 16
	low := 0.0
	for k := 1; k <= parts; k++ {
		share := float64(k) / (parts + 0.01)
		high := math.Acos(p.share) * share * share
		if excess(high) > 0 {
			low = high
			continue
		}
		near := root(low, high, excess)
		p.rows = 5
		// The exact solution is close to that of coarse steps, or between the
		// same two points.
		a, b := near*(1-1e-4), near*(1+1e-4)
		if !(excess(a) > 0 && excess(b) <= 0) {
			a, b = low, high
			if !(excess(a) > 0 && excess(b) <= 0) {
				return
			}
		}
		p.start = root(a, b, excess)
		p.measure()
		return
	}
}

// measure follows the settled pulse once more and takes down what it shows.
func (p *pulse) measure() {
	p.sums = len(state{})
	deepest, highest := 0.0, math.Inf(1)
	note := func(x float64, y state) {
		deepest, highest = math.Max(deepest, y[0]), math.Min(highest, y[0])
		p.highest = math.Max(p.highest, p.current(x, y))
	}
	end, y, ok := p.conduct(p.start, func(x float64, y state, h float64, next state) {
		note(x, y)
		note(x+h, next)
		// The output turns where it has no slope, the current where the
		// source falls as fast as the output.
		turns := func(x float64, y state) float64 { return p.slope(x, y)[0] }
		crests := func(x float64, y state) float64 { return math.Sin(x) - p.slope(x, y)[0] }
		for _, f := range []func(float64, state) float64{turns, crests} {
			if (f(x, y) < 0) != (f(x+h, next) < 0) {
				at := root(0, h, func(h float64) float64 { return f(x+h, p.step(x, y, h)) })
				note(x+at, p.step(x, y, at))
			}
		}
	})
	if !ok {
		return
	}
	gap := p.period - p.start - end
	first := p.top() - y[0]
	drop := p.droop(first, gap)
	last := first - drop
	var area, heat float64
	switch p.kind {
	case ofPower:
		area = drop * (first*first + first*last + last*last) / (3 * p.taken)
		heat = p.taken * math.Log(first/last)
	case ofResistance:
		area = drop / p.taken
		heat = drop * (first + last) / 2 * p.taken
	default:
		area = gap * (first + last) / 2
		heat = p.taken * p.taken * gap
	}
	p.peak, p.valley, p.ripple = p.top()-highest, p.top()-deepest, deepest-highest
	p.end = end
	p.mean = (y[1] + area) / p.period
	p.average = y[2] / p.period
	p.rms = math.Sqrt(y[3] / p.period)
	p.reservoir = math.Sqrt((y[4] + heat) / p.period)
	p.settled = true
}

// root is where f, which has different signs at a and b, is zero: the chord's
// zero (Illinois), with a halving where that is slow, until the last digits
// no longer change.
func root(a, b float64, f func(x float64) float64) float64 {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a
	}
	for n := range 100 {
		if fb == 0 {
			break
		}
		m := b - fb*(b-a)/(fb-fa)
		if n%8 == 7 || !(math.Min(a, b) < m && m < math.Max(a, b)) {
			m = a + (b-a)/2
		}
		if math.Abs(m-b) <= 4e-16*math.Abs(m) {
			break
		}
		fm := f(m)
		if (fm < 0) != (fb < 0) {
			a, fa = b, fb
		} else {
			fa /= 2
		}
		b, fb = m, fm
	}
	return b
}
