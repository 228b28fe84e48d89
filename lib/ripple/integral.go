package ripple

import "ohmwright/units"

// nodes and weights of Gauss and Legendre's rule of 16 points, one half:
// Abramowitz and Stegun, table 25.4.
var nodes = [...]struct{ at, weight float64 }{
	{0.0950125098376374, 0.1894506104550685},
	{0.2816035507792589, 0.1826034150449236},
	{0.4580167776572274, 0.1691565193950025},
	{0.6178762444026438, 0.1495959888165767},
	{0.7554044083550030, 0.1246289712555339},
	{0.8656312023878318, 0.0951585116824928},
	{0.9445750230732326, 0.0622535239386479},
	{0.9894009349916499, 0.0271524594117541},
}

// integral sums f from a to b, in two parts: to all digits for what is
// smooth there.
func integral(a, b units.Quantity, f func(x units.Quantity) units.Quantity) units.Quantity {
	half := b.Sub(a).Mul(units.Number(0.5))
	return gauss(a, half, f).Add(gauss(a.Add(half), half, f))
}

func gauss(a, width units.Quantity, f func(x units.Quantity) units.Quantity) units.Quantity {
	half := width.Mul(units.Number(0.5))
	middle := a.Add(half)
	sum := none
	for _, n := range nodes {
		off := half.Mul(units.Number(n.at))
		pair := f(middle.Sub(off)).Add(f(middle.Add(off)))
		sum = sum.Add(pair.Mul(units.Number(n.weight)))
	}
	return sum.Mul(half)
}
