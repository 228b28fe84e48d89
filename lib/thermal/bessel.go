package thermal

import (
	"math"

	"ohmwright/units"
)

// The modified Bessel functions of order 0 and 1 which the spreading of heat
// in a disc needs, without the exponential in them: besselI is e^(−x) · I(x),
// besselK is e^x · K(x), for x above 0.

// asymptotic is where the series in 1/x takes over: its best term is then
// e^(−2x), far below a rounding.
const asymptotic = 30

func besselI(order int, x float64) float64 {
	if x > asymptotic {
		return expansion(order, x, -1) / math.Sqrt(2*math.Pi*x)
	}
	// (x/2)^order/order! · (1 + (x/2)²/(1 · (1 + order)) + …), all terms above 0.
	half := x / 2
	term := 1.0
	if order == 1 {
		term = half
	}
	sum := term
	for k := 1; term > 1e-17*sum; k++ {
		term *= half * half / float64(k*(k+order))
		sum += term
	}
	return sum * math.Exp(-x)
}

func besselK(order int, x float64) float64 {
	switch {
	case x > asymptotic:
		return expansion(order, x, 1) * math.Sqrt(math.Pi/(2*x))
	case x > 2:
		return integralK(order, x)
	}
	// −(ln(x/2) + γ) · I₀ + (x/2)² + (1 + 1/2) · (x/2)⁴/2!² + …, and from
	// I₀ · K₁ + I₁ · K₀ = 1/x the other one.
	half := x / 2
	k0, i0, term, harmonic := 0.0, 1.0, 1.0, 0.0
	for k := 1.0; term > 1e-17; k++ {
		term *= half * half / (k * k)
		harmonic += 1 / k
		i0 += term
		k0 += harmonic * term
	}
	k0 -= (math.Log(half) + eulerGamma) * i0
	if order == 1 {
		k0 = (1/x - besselI(1, x)*math.Exp(x)*k0) / i0
	}
	return k0 * math.Exp(x)
}

const eulerGamma = 0.57721566490153286

// integralK is ∫ e^(−x · (cosh t − 1)) · cosh(order · t) dt from 0 on; steps of
// an eighth are exact to all digits, since the integrand falls like e^(−e^t).
func integralK(order int, x float64) float64 {
	const step = 0.125
	first := math.Cosh(step)
	before, cosh, sum := 1.0, first, 0.5 // cosh of one step less, of this step
	for {
		term := math.Exp(x * (1 - cosh))
		if order == 1 {
			term *= cosh
		}
		sum += term
		if term < 1e-18*sum {
			return sum * step
		}
		before, cosh = cosh, 2*first*cosh-before
	}
}

// expansion is 1 + sign · (μ − 1)/(8x) + (μ − 1)(μ − 9)/(2! (8x)²) + …, with
// μ four times the square of the order (Abramowitz and Stegun 9.7.1, 9.7.2).
func expansion(order int, x, sign float64) float64 {
	mu := 4 * float64(order*order)
	term, sum := 1.0, 1.0
	for k := 1; k < 25; k++ {
		odd := float64(2*k - 1)
		term *= sign * (mu - odd*odd) / (float64(k) * 8 * x)
		sum += term
	}
	return sum
}

// bessels of one argument, case by case.
type bessels struct{ i0, i1, k0, k1 units.Quantity }

func besselsOf(x units.Quantity) bessels {
	one := units.Number(1)
	of := func(name string, f func(int, float64) float64, order int) units.Quantity {
		return units.Lanewise(name, one, func(v []float64) float64 { return f(order, v[0]) }, x)
	}
	return bessels{of("I₀(x)", besselI, 0), of("I₁(x)", besselI, 1), of("K₀(x)", besselK, 0), of("K₁(x)", besselK, 1)}
}
