package protect

import (
	"math"
	"testing"

	"ohmwright/lib/internal/expect"
	"ohmwright/lib/table"
	"ohmwright/units"
)

var q = units.MustParse

// close checks a result against a number, within a relative tolerance.
func closeTo(t *testing.T, name string, got, want, tolerance float64) {
	t.Helper()
	if d := math.Abs(got - want); !(d <= tolerance*math.Abs(want)) {
		t.Errorf("%s is %.10g, want %.10g within %g", name, got, want, tolerance)
	}
}

func box[T any](x T, err error) (any, error) { return x, err }

// of is x in the given unit.
func of(x float64, unit string) units.Quantity { return units.Number(x).Mul(q("1 " + unit)) }

// clamp36 is a 600 W suppressor diode for 36 V: SMBJ36A, by the table of
// check 07-08 and, for the breakdown, from memory.
func clamp36() Suppressor {
	return Suppressor{StandOff: q("36 V"), Breakdown: q("42.1 V"), Clamping: q("58.1 V"), PeakCurrent: q("10.3 A")}
}

// hold is the curve of check 07-03 for a fuse of 1.1 A.
func hold() table.Table {
	return expect.Table("ambient [°C], hold current [A]\n-40, 1.595\n-20, 1.43\n0, 1.32\n25, 1.1\n40, 0.968\n50, 0.88\n60, 0.781\n70, 0.726\n85, 0.616")
}

// resettable is a design with that fuse.
func resettable() ResettableInputs {
	return ResettableInputs{
		Hold: hold(), Ambient: q("60 °C"), Load: q("0.5 A"), Supply: q("32 V"), Voltage: q("60 V"), Fault: q("20 A"), LargestFault: q("40 A"),
		LeastFault: q("5 A"), Resistance: q("0.2 Ω"), AfterTrip: q("0.4 Ω"), TripIntegral: q("4 A²·s"), Reference: q("25 °C"), LongestTripped: q("1 s"),
	}
}

// area is a safe operating area of our own: straight on logarithmic axes.
func area() table.Table {
	return expect.Table("time [s] log, drain voltage [V] log, current [A] log\n0.001, 10, 30\n0.01, 10, 9\n0.1, 10, 3\n0.001, 60, 2\n0.01, 60, 0.5\n0.1, 60, 0.2")
}

// input is a chain of wire, fuse with a clamp behind it, and diode: our own.
func input() []ChainStage {
	return []ChainStage{
		{Name: "wire", Resistance: q("50 mΩ")},
		{Name: "fuse", Resistance: q("60 mΩ"), Breakdown: q("40 V"), ClampResistance: q("1.5 Ω"), ClampForward: q("1 V")},
		{Name: "diode", Forward: q("0.5 V"), Blocks: true, Rating: q("100 V"), Limit: q("60 V")},
	}
}
