package units

import "testing"

// What a value is computed from need not move it: the smaller of a, b and of
// the larger of the two is the smaller argument, whatever the other is.
func TestMovers(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{Boards: 100})
	a := s.Place("a", "a", Range(q("9 V"), q("10 V"), q("110 V")))
	b := s.Place("b", "b", Tolerance(q("10 V"), q("1 %")))
	names := func(list []Source) (out string) {
		for _, src := range list {
			out += src.Name
		}
		return out
	}
	x := Min(Max(a, b), b)
	if got := names(x.Movers()); got != "b" {
		t.Errorf("%v is moved by %q", x, got)
	}
	if got := names(x.Sources()); got != "ab" {
		t.Errorf("%v is computed from %q", x, got)
	}
	if got := names(a.Add(b).Movers()); got != "ab" {
		t.Errorf("a + b is moved by %q", got)
	}
	if got := q("1 V").Movers(); got != nil {
		t.Errorf("an exact value is moved by %v", got)
	}
}
