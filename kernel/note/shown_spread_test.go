package note_test

import (
	"testing"

	"ohmwright/kernel/note"
)

// A value that stands alone shows its spread also where its cell decides, in
// each case by itself: it was once shown as the nominal case took it, as if it
// were exact.
func TestShownInACellThatDecides(t *testing.T) {
	t.Parallel()
	_, results := compute(t, "x := Range(1V, 5V, 9V)", "y := 1V\nif x > 4V {\n\ty = 2V\n}\ny\ny*2\n[]Quantity{y, x}")
	want := map[string][2]string{"y": {"1 V", "2 V"}, "y*2": {"2 V", "4 V"}} // below and above 4 V
	for _, it := range results[1].Items {
		s, ok := it.(*note.Shown)
		if !ok || s.Formula == nil {
			continue
		}
		key := s.Formula.Text
		if len(s.Formula.Args) == 2 {
			key = "y*2"
		}
		limits, ok := want[key]
		if !ok {
			continue
		}
		delete(want, key)
		if s.Spread == nil || s.Spread.Low.String() != limits[0] || s.Spread.High.String() != limits[1] {
			t.Errorf("%s has limits %+v, want %v", key, s.Spread, limits)
		}
	}
	for key := range want {
		t.Errorf("%s is not shown", key)
	}
}
