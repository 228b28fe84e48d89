package battery

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
		exponent := func() units.Quantity { return expect.Between(t, 1, 2, "1") }
		expect.Finite(t, "Pulse", func() (any, error) {
			return box(Pulse(PulseInputs{OpenCircuit: x("V"), Resistance: x("Ω"), Current: x("A"), LeastVoltage: x("V"), Capacitance: x("F"), ESR: x("Ω"), Duration: x("s"), Period: x("s")}))
		})
		expect.Finite(t, "a single Pulse", func() (any, error) {
			return box(Pulse(PulseInputs{OpenCircuit: x("V"), Resistance: x("Ω"), Current: x("A"), LeastVoltage: x("V"), Capacitance: x("F"), Duration: x("s")}))
		})
		expect.Finite(t, "Modes", func() (any, error) {
			return box(Modes(ModesInputs{Period: x("s"), Voltage: x("V"), Modes: []Mode{{Current: x("A"), Time: x("s")}, {Power: x("W"), Time: x("s")}, {Current: x("A")}}}))
		})
		expect.Finite(t, "Capacity", func() (any, error) {
			return box(Capacity(CapacityInputs{Rated: x("Ah"), Aged: x("1"), Load: x("A"), ByRate: expect.Table("load [A], left [%]\n0, 100\n1, 60")}))
		})
		expect.Finite(t, "RunTime", func() (any, error) {
			return box(RunTime(RunTimeInputs{Capacity: x("Ah"), Usable: share(), Current: x("A"), SelfDischarge: share(), Per: x("s"), Shelf: x("s")}))
		})
		expect.Finite(t, "Storage", func() (any, error) {
			return box(Storage(StorageInputs{Capacity: x("Ah"), SelfDischarge: share(), Per: x("s"), Time: x("s")}))
		})
		expect.Finite(t, "Peukert", func() (any, error) {
			return box(Peukert(PeukertInputs{Rated: x("Ah"), Hours: x("s"), Exponent: exponent(), Load: x("A")}))
		})
		expect.Finite(t, "PeukertAtOneAmpere", func() (any, error) { return box(PeukertAtOneAmpere(x("Ah"), exponent(), x("A"))) })
		expect.Finite(t, "PeukertExponent", func() (any, error) { return box(PeukertExponent(x("Ah"), x("s"), x("Ah"), x("s"))) })
		expect.Finite(t, "Headroom", func() (any, error) {
			return box(Headroom(HeadroomInputs{OpenCircuit: expect.Table("charge [%], voltage [V]\n0, 3\n100, 4"), Resistance: x("Ω"), Power: x("W"), Output: x("V"), Dropout: x("V")}))
		})
		expect.Finite(t, "Pack", func() (any, error) {
			return box(Pack(CellInputs{Voltage: x("V"), Capacity: x("Ah"), Resistance: x("Ω")}, 3, 2))
		})
	})
}
