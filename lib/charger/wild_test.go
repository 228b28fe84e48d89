package charger

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
		call("Setting", func() (any, error) {
			return box(Setting(SettingInputs{Constant: x("V"), Resistor: x("Ω"), Precharge: share(), Termination: share(), Most: x("A")}))
		})
		call("Resistor", func() (any, error) { return box(Resistor(x("V"), x("A"))) })
		call("Timer", func() (any, error) { return box(Timer(x("s"), x("s"))) })
		call("Charge", func() (any, error) {
			return box(Charge(ChargeInputs{OpenCircuit: tab("charge [%], voltage [V]\n0, 3\n50, 3.5\n100, 4.2"), Resistance: x("Ω"), Capacity: x("Ah"), Start: share(), FullVoltage: of(3, "V").Add(share().Mul(q("1.2 V"))), Current: x("A"), Termination: x("A"), Precharge: x("A"), Threshold: x("V")}))
		})
		call("WindowDivider", func() (any, error) {
			return box(WindowDivider(WindowDividerInputs{Cold: x("Ω"), Hot: x("Ω"), ColdShare: share(), HotShare: share()}))
		})
		call("Window", func() (any, error) {
			return box(Window(WindowInputs{Upper: x("Ω"), Parallel: x("Ω"), ColdShare: share(), HotShare: share(), Thermistor: tab("cell [°C], R [Ω]\n0, 30000\n50, 1")}))
		})
		call("Heat", func() (any, error) {
			return box(Heat(HeatInputs{Input: x("V"), Battery: x("V"), Current: x("A"), Ambient: q("25 °C"), Resistance: x("K/W"), Regulation: q("120 °C")}))
		})
		call("Switching", func() (any, error) {
			return box(Switching(SwitchingInputs{Input: x("V"), Battery: x("V"), Current: x("A"), Efficiency: share()}))
		})
		call("Sharing", func() (any, error) {
			return box(Sharing(SharingInputs{Limit: x("A"), Load: x("A"), Charge: x("A"), Battery: x("A")}))
		})
	})
}
