package battery

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
		call("Pulse", func() (any, error) {
			return box(Pulse(PulseInputs{OpenCircuit: x("V"), Resistance: x("Ω"), Current: x("A"), LeastVoltage: x("V"), Capacitance: x("F"), ESR: x("Ω"), Duration: x("s"), Period: x("s")}))
		})
		call("a single Pulse", func() (any, error) {
			return box(Pulse(PulseInputs{OpenCircuit: x("V"), Resistance: x("Ω"), Current: x("A"), LeastVoltage: x("V"), Capacitance: x("F"), Duration: x("s")}))
		})
		call("Modes", func() (any, error) {
			return box(Modes(ModesInputs{Period: x("s"), Voltage: x("V"), Modes: []Mode{{Current: x("A"), Time: x("s")}, {Power: x("W"), Time: x("s")}, {Current: x("A")}}}))
		})
		call("Capacity", func() (any, error) {
			return box(Capacity(CapacityInputs{Rated: x("Ah"), Aged: x("1"), Load: x("A"), ByRate: tab("load [A], left [%]\n0, 100\n1, 60")}))
		})
		call("RunTime", func() (any, error) {
			return box(RunTime(RunTimeInputs{Capacity: x("Ah"), Usable: share(), Current: x("A"), SelfDischarge: share(), Per: x("s"), Shelf: x("s")}))
		})
		call("Storage", func() (any, error) {
			return box(Storage(StorageInputs{Capacity: x("Ah"), SelfDischarge: share(), Per: x("s"), Time: x("s")}))
		})
		call("Peukert", func() (any, error) {
			return box(Peukert(PeukertInputs{Rated: x("Ah"), Hours: x("s"), Exponent: of(1, "1").Add(share()), Load: x("A")}))
		})
		call("PeukertAtOneAmpere", func() (any, error) { return box(PeukertAtOneAmpere(x("Ah"), of(1, "1").Add(share()), x("A"))) })
		call("PeukertExponent", func() (any, error) { return box(PeukertExponent(x("Ah"), x("s"), x("Ah"), x("s"))) })
		call("Headroom", func() (any, error) {
			return box(Headroom(HeadroomInputs{OpenCircuit: tab("charge [%], voltage [V]\n0, 3\n100, 4"), Resistance: x("Ω"), Power: x("W"), Output: x("V"), Dropout: x("V")}))
		})
		call("Pack", func() (any, error) {
			return box(Pack(CellInputs{Voltage: x("V"), Capacity: x("Ah"), Resistance: x("Ω")}, 3, 2))
		})
	})
}
