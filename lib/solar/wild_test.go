package solar

import (
	"math"
	"reflect"
	"testing"

	"ohmwright/units"

	"pgregory.net/rapid"
)

// Whatever goes in, a result has only finite numbers, and nothing panics.
func TestWildInputs(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		x := func(unit string) units.Quantity {
			size := rapid.OneOf(rapid.Float64Range(-3, 3), rapid.Float64Range(-29, 29)).Draw(t, "exponent")
			return of(math.Pow(10, size)*rapid.SampledFrom([]float64{1, 1, 1, 1, 1, 1, 0, -1}).Draw(t, "sign"), unit)
		}
		share := func() units.Quantity { return of(rapid.Float64Range(0, 1).Draw(t, "share"), "1") }
		check := func(name string, result any, err error) {
			if err != nil {
				return
			}
			for i, v := range quantities(reflect.ValueOf(result)) {
				if n := v.SI(); math.IsNaN(n) || math.IsInf(n, 0) {
					t.Fatalf("%s: result %d is %v: %+v", name, i, n, result)
				}
			}
		}
		call := func(name string, f func() (any, error)) {
			defer func() {
				if p := recover(); p != nil {
					t.Errorf("%s panics: %v", name, p)
				}
			}()
			result, err := f()
			check(name, result, err)
		}
		call("Panel", func() (any, error) { return box(Panel(x("Wh"), x("s"), share())) })
		call("Battery", func() (any, error) {
			return box(Battery(BatteryInputs{Daily: x("Wh"), Days: x("1"), Depth: share(), Kept: share(), Cold: share(), Voltage: x("V")}))
		})
		call("Year", func() (any, error) {
			return box(Year(YearInputs{Sun: tab("month [1], sun [h]\n1, 0\n6, 5\n12, 1"), Panel: x("W"), Kept: share(), Load: x("W"), Battery: x("Wh"), Start: share()}))
		})
	})
}
