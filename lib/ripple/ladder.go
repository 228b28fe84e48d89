package ripple

import "math"

// ladder is one case of a filter in numbers: the frequency, the resistance of
// the source, the conductance of the load, and for each section resistance,
// inductance, capacitance, its ESR, damping capacitance, its ESR. It gives the
// sizes of the voltages for 1 at the load: at the source, and behind each
// section. Voltages and currents are pairs, in phase and a quarter ahead: the
// engine, which computes this source again to tell it step by step, has no
// complex numbers.
func ladder(x []float64, frequency float64) []float64 {
	w := 2 * math.Pi * frequency
	sections := (len(x) - 3) / 6
	sizes := make([]float64, sections+1)
	v, quarter := 1.0, 0.0
	i, ahead := x[2], 0.0
	for k := sections; k > 0; k-- {
		sizes[k] = math.Hypot(v, quarter)
		p := x[3+6*(k-1):]
		for _, c := range [][2]float64{{p[2], p[3]}, {p[4], p[5]}} {
			g, b := branch(w, c[0], c[1])
			i, ahead = i+v*g-quarter*b, ahead+v*b+quarter*g
		}
		r, reactance := p[0], w*p[1]
		if k == 1 {
			r += x[1]
		}
		v, quarter = v+i*r-ahead*reactance, quarter+i*reactance+ahead*r
	}
	sizes[0] = math.Hypot(v, quarter)
	return sizes
}

// branch is the admittance of a capacitance and its resistance in series, in
// phase and a quarter ahead, without dividing by either.
func branch(w, c, r float64) (g, b float64) {
	d := 1 + w*c*r*w*c*r
	return w * c * w * c * r / d, w * c / d
}

// directly is what is left of a direct voltage.
func directly(x []float64) float64 {
	series := x[1]
	for k := 3; k < len(x); k += 6 {
		series += x[k]
	}
	return 1 / (1 + series*x[2])
}

// largest searches for the largest transfer and its frequency, in octaves
// around the resonances and corners of every coil and resistor with every
// capacitor: peaks of a chain lie between them. The frequency is 0 where
// nothing is above the transfer of a direct voltage.
func largest(x []float64) [2]float64 {
	low, high := math.Inf(1), 0.0
	seen := func(f float64) {
		if f > 0 && !math.IsInf(f, 0) {
			low, high = math.Min(low, f), math.Max(high, f)
		}
	}
	for i := 3; i < len(x); i += 6 {
		for j := 3; j < len(x); j += 6 {
			for _, c := range []float64{x[j+2], x[j+4]} {
				seen(1 / (2 * math.Pi * math.Sqrt(x[i+1]*c)))
			}
		}
	}
	best := [2]float64{directly(x), 0}
	if high == 0 { // resistors and capacitors alone have no peak
		return best
	}
	low, high = low/16, high*16
	transfer := func(log float64) float64 { return 1 / math.Max(ladder(x, math.Exp(log))[0], 1e-290) }
	// 64 points an octave, and a golden section around the highest.
	points := int(math.Min(4000, math.Ceil(64*math.Log2(high/low))))
	from, width := math.Log(low), math.Log(high/low)/float64(points)
	at := -1
	for k := range points + 1 {
		if t := transfer(from + float64(k)*width); t > best[0]*(1+1e-12) {
			best, at = [2]float64{t, math.Exp(from + float64(k)*width)}, k
		}
	}
	if at < 0 {
		return best
	}
	a, b := from+float64(at-1)*width, from+float64(at+1)*width
	const golden = 0.6180339887498949
	for range 60 {
		c, d := b-golden*(b-a), a+golden*(b-a)
		if transfer(c) > transfer(d) {
			b = d
		} else {
			a = c
		}
	}
	return [2]float64{math.Max(best[0], transfer((a+b)/2)), math.Exp((a + b) / 2)}
}
