package builtin_test

import (
	"testing"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/units"
)

// A loop of exact values that takes some thirty rounds.
func BenchmarkSettle(b *testing.B) {
	ambient, loss, rise, alpha, one := q("25°C"), q("1W"), q("50K/W"), q("0.4%/K"), units.Number(1)
	for b.Loop() {
		builtin.Settle(ambient, func(t units.Quantity) units.Quantity {
			return ambient.Add(loss.Mul(one.Add(alpha.Mul(t.Sub(ambient)))).Mul(rise))
		})
	}
}
