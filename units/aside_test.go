package units

import "testing"

// What stands in for a while leaves no trace in a study, and stays good.
func TestAside(t *testing.T) {
	t.Parallel()
	s := NewStudy(StudyOptions{Boards: 10})
	r := s.Place("R", "R", Tolerance(MustParse("10 kΩ"), MustParse("1 %")))
	s.NoteSplit("before", "somewhere")
	back := s.Aside()
	other := s.Place("R", "R", Tolerance(MustParse("20 kΩ"), MustParse("1 %")))
	s.Place("C", "C", Tolerance(MustParse("1 nF"), MustParse("1 %")))
	s.TakeSplits()
	s.NoteSplit("meanwhile", "elsewhere")
	if got, want := s.Describe(Case{At: map[string]float64{"R": -1}}), "R is 19.8 kΩ"; got != want {
		t.Errorf("meanwhile %q, want %q", got, want)
	}
	back()
	if got, want := s.Describe(Case{At: map[string]float64{"R": -1}}), "R is 9.9 kΩ"; got != want {
		t.Errorf("afterwards %q, want %q", got, want)
	}
	if splits, n := s.TakeSplits(); n != 1 || splits[0].Text != "before" {
		t.Errorf("%d decisions: %v", n, splits)
	}
	// One source, in one study: the ratio is exactly 2.
	ratio := other.Div(r)
	if low, high, ok := ratio.Limits(); !ok || low.SI() != 2 || high.SI() != 2 {
		t.Errorf("20 kΩ over 10 kΩ of one source is %v … %v", low, high)
	}
}
