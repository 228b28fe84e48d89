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

// A jump that one case swings across keeps it from rest: the note is told to
// compute the cases one by one.
func TestSettleLeavesASwingToTheNote(t *testing.T) {
	t.Parallel()
	study := units.NewStudy(units.StudyOptions{Boards: 10})
	x := study.Place("x", "x", units.Range(units.Number(1), units.Number(2), units.Number(4)))
	builtin.Settle(units.Number(1), func(y units.Quantity) units.Quantity {
		return units.Where(y, x, x.Sub(units.Number(1.5)), x.Mul(units.Number(0.5)))
	})
	// With x = 2 it rests at 0.5; nothing swings there, nor anywhere else.
	if splits, n := study.TakeSplits(); n != 0 {
		t.Errorf("%d splits: %v", n, splits)
	}
	builtin.Settle(units.Number(1), func(y units.Quantity) units.Quantity {
		return units.Where(x, units.Number(3), units.Number(1), units.Where(y, units.Number(1.5), units.Number(2), units.Number(1)))
	})
	if splits, n := study.TakeSplits(); n != 1 || splits[0].Text != "Settle" {
		t.Errorf("%d splits: %v", n, splits)
	}
}
