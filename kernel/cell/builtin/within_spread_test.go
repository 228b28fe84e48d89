package builtin_test

import (
	"testing"

	"ohmwright/kernel/cell/builtin"
	"ohmwright/units"
)

// Within answers for the nominal value and tells the study where a case
// answers otherwise, so that a note computes that case by itself.
func TestWithinSaysWhereCasesPart(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		x, lo, hi units.Quantity
		holds     bool
		where     string // "" if all cases answer alike
	}{
		{units.Range(q("4.8V"), q("5V"), q("5.2V")), q("4.75V"), q("5.25V"), true, ""},
		{units.Range(q("4.75V"), q("5V"), q("5.25V")), q("4.75V"), q("5.25V"), true, ""},
		{units.Range(q("5V"), q("5V"), q("5.2V")), q("5V"), q("5.25V"), true, ""}, // equal nominally, above in the cases
		{units.Range(q("4.7V"), q("5V"), q("5.2V")), q("4.75V"), q("5.25V"), true, "x is 4.7 V"},
		{units.Range(q("4.8V"), q("5V"), q("5.3V")), q("4.75V"), q("5.25V"), true, "x is 5.3 V"},
		{units.Range(q("4.8V"), q("5.3V"), q("5.5V")), q("4.75V"), q("5.25V"), false, "x is 4.8 V"},
		{units.Range(q("5.3V"), q("5.4V"), q("5.5V")), q("4.75V"), q("5.25V"), false, ""},
		{q("5V"), units.Range(q("4V"), q("4.5V"), q("5.1V")), q("6V"), true, "x is 5.1 V"},
		{q("5V"), q("4V"), units.Range(q("3V"), q("6V"), q("7V")), true, "x is 3 V"},
	} {
		study := units.NewStudy(units.StudyOptions{Boards: 10})
		x, lo, hi := study.Place("x", "x", c.x), study.Place("x", "x", c.lo), study.Place("x", "x", c.hi)
		if got := builtin.Within(x, lo, hi); got != c.holds {
			t.Errorf("Within(%v, %v, %v) is %v", x, lo, hi, got)
		}
		splits, n := study.TakeSplits()
		if c.where == "" && n > 0 || c.where != "" && (n == 0 || splits[0].Case != c.where) {
			t.Errorf("Within(%v, %v, %v) parts at %v, want %q", x, lo, hi, splits, c.where)
		}
	}
}
