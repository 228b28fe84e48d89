package builtin_test

import (
	"math"
	"strings"
	"testing"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/units"
)

// A winding whose loss rises with its temperature, α = 0.4 %/K from the air's:
// ΔT = P·R/(1 − α·P·R), in every case of the loss and of the thermal resistance.
func TestSettleInEveryCase(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 50})
	air := study.Place("air", "Ta", units.Range(q("-20 °C"), q("25 °C"), q("60 °C")))
	loss := study.Place("loss", "P", units.Band(q("0.5 W"), q("1 W"), q("2 W")))
	rise := study.Place("rise", "R", units.Tolerance(q("50 K/W"), q("10 %")))
	alpha := q("0.4%/K")
	hot := builtin.Settle(q("25 °C"), func(t units.Quantity) units.Quantity {
		return air.Add(loss.Mul(units.Number(1).Add(alpha.Mul(t.Sub(air)))).Mul(rise))
	})
	cases := study.CasesOf([]units.Quantity{air, loss, rise})
	for i := range cases.Len() {
		pr := cases.Pick(loss, i).SI() * cases.Pick(rise, i).SI()
		want := cases.Pick(air, i).SI() + pr/(1-0.004*pr)
		if got := cases.Pick(hot, i).SI(); math.Abs(got-want) > 1e-9*want {
			t.Fatalf("%v K where %s, want %v K", got, cases.Where(i), want)
		}
	}
	if splits, n := study.TakeSplits(); n > 0 {
		t.Errorf("decides for all cases: %v", splits)
	}
}

// At rest nominally, running away at one end: α·P·R = 0.004·5·60 = 1.2.
func TestSettleRunsAwayInOneCase(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 50})
	loss := study.Place("loss", "P", units.Range(q("0.5 W"), q("1 W"), q("5 W")))
	e := failure(t, func() {
		builtin.Settle(q("0 K"), func(t units.Quantity) units.Quantity {
			return loss.Mul(units.Number(1).Add(q("0.4%/K").Mul(t))).Mul(q("60 K/W"))
		})
	})
	if !strings.HasPrefix(e.Msg, "Settle ran away after ") || !strings.Contains(e.Msg, " where P is 5 W: the last values are ") {
		t.Errorf("says %s", e.Msg)
	}
}

// x = 100 − k·x rests at 100/(1+k). Each case takes steps of its own: undamped,
// those of k = 50 would have run away before those of k = 0.99 have rested.
func TestSettleDampsEveryCaseByItself(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 50})
	k := study.Place("k", "k", units.Band(units.Number(0.1), units.Number(0.99), units.Number(50)))
	y := builtin.Settle(units.Number(0), func(y units.Quantity) units.Quantity {
		return units.Number(100).Sub(k.Mul(y))
	})
	cases := study.CasesOf([]units.Quantity{k})
	for i := range cases.Len() {
		want := 100 / (1 + cases.Pick(k, i).SI())
		if got := cases.Pick(y, i).SI(); math.Abs(got-want) > 1e-9*want {
			t.Errorf("%v where %s, want %v", got, cases.Where(i), want)
		}
	}
}

// A function that jumps to and fro in one case never rests there.
func TestSettleFindsNoRestInOneCase(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 10})
	x := study.Place("x", "x", units.Range(units.Number(1), units.Number(2), units.Number(4)))
	e := failure(t, func() {
		builtin.Settle(units.Number(1), func(y units.Quantity) units.Quantity {
			return units.Where(x, units.Number(3.9), units.Number(1), units.Where(y, units.Number(1.5), units.Number(2), units.Number(1)))
		})
	})
	if want := "Settle found no rest in 10000 rounds where x is 4: the last values are "; !strings.HasPrefix(e.Msg, want) {
		t.Errorf("says %s", e.Msg)
	}
}

// A level takes whole steps, in every case.
func TestSettleOfALevelInEveryCase(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 10})
	gain := study.Place("g", "G", units.Band(q("1dB"), q("2dB"), q("3dB")))
	level := builtin.Settle(q("0dBm"), func(l units.Quantity) units.Quantity { return q("10dBm").Add(gain) })
	cases := study.CasesOf([]units.Quantity{gain})
	for i := range cases.Len() {
		want := q("10dBm").Add(cases.Pick(gain, i))
		if got := cases.Pick(level, i); math.Abs(got.Sub(want).SI()) > 1e-12 {
			t.Errorf("%v where %s, want %v", got, cases.Where(i), want)
		}
	}
}
