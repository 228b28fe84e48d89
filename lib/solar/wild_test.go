package solar

import (
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/units"

	"pgregory.net/rapid"
)

// Whatever goes in, a result has only finite numbers, and nothing panics.
func TestWildInputs(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		draw, _ := expect.Manner(t)
		x := func(unit string) units.Quantity { return draw("x", unit) }
		share := func() units.Quantity { return expect.Between(t, 0, 1, "1") }
		expect.Finite(t, "Panel", func() (any, error) { return box(Panel(x("Wh"), x("s"), share())) })
		expect.Finite(t, "Battery", func() (any, error) {
			return box(Battery(BatteryInputs{Daily: x("Wh"), Days: x("1"), Depth: share(), Kept: share(), Cold: share(), Voltage: x("V")}))
		})
		expect.Finite(t, "Year", func() (any, error) {
			return box(Year(YearInputs{Sun: expect.Table("month [1], sun [h]\n1, 0\n6, 5\n12, 1"), Panel: x("W"), Kept: share(), Load: x("W"), Battery: x("Wh"), Start: share()}))
		})
	})
}
