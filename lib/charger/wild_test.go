package charger

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
		expect.Finite(t, "Setting", func() (any, error) {
			return box(Setting(SettingInputs{Constant: x("V"), Resistor: x("Ω"), Precharge: share(), Termination: share(), Most: x("A")}))
		})
		expect.Finite(t, "Resistor", func() (any, error) { return box(Resistor(x("V"), x("A"))) })
		expect.Finite(t, "Timer", func() (any, error) { return box(Timer(x("s"), x("s"))) })
		expect.Finite(t, "Charge", func() (any, error) {
			return box(Charge(ChargeInputs{OpenCircuit: expect.Table("charge [%], voltage [V]\n0, 3\n50, 3.5\n100, 4.2"), Resistance: x("Ω"), Capacity: x("Ah"), Start: share(), FullVoltage: expect.Between(t, 3, 4.2, "V"), Current: x("A"), Termination: x("A"), Precharge: x("A"), Threshold: x("V")}))
		})
		expect.Finite(t, "WindowDivider", func() (any, error) {
			return box(WindowDivider(WindowDividerInputs{Cold: x("Ω"), Hot: x("Ω"), ColdShare: share(), HotShare: share()}))
		})
		expect.Finite(t, "Window", func() (any, error) {
			return box(Window(WindowInputs{Upper: x("Ω"), Parallel: x("Ω"), ColdShare: share(), HotShare: share(), Thermistor: expect.Table("cell [°C], R [Ω]\n0, 30000\n50, 1")}))
		})
		expect.Finite(t, "Heat", func() (any, error) {
			return box(Heat(HeatInputs{Input: x("V"), Battery: x("V"), Current: x("A"), Ambient: q("25 °C"), Resistance: x("K/W"), Regulation: q("120 °C")}))
		})
		expect.Finite(t, "Switching", func() (any, error) {
			return box(Switching(SwitchingInputs{Input: x("V"), Battery: x("V"), Current: x("A"), Efficiency: share()}))
		})
		expect.Finite(t, "Sharing", func() (any, error) {
			return box(Sharing(SharingInputs{Limit: x("A"), Load: x("A"), Charge: x("A"), Battery: x("A")}))
		})
	})
}
