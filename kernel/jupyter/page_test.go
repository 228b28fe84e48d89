package jupyter

import (
	"context"
	"strings"
	"testing"
)

func (s *sitting) in(session, id, code string, silent bool) ExecuteReply {
	s.count++
	s.log = nil
	return s.engine.Execute(context.Background(), ExecuteRequest{Code: code, CellID: id, Session: session, Count: s.count, Silent: silent}, s.screen)
}

func TestReloadedPageIsToldOfStaleResults(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.in("one", "a", "Vin := 9V", false)
	s.in("one", "b", "I := Vin/1kΩ", false)
	s.in("two", "a", "Vin := 12V", false)
	s.want("1 result shown before this page was loaded is out of date: run all cells; In [2] (I)")
	s.in("two", "c", "x := 1", false)
	s.want("out of date")
	s.in("two", "b", "I := Vin/1kΩ", false)
	s.want("not out of date")
}

func TestErrorHealsBelowItsOutput(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1A")
	if r := s.execute("b", "y := x + 1V"); r.Err == nil {
		t.Error("no error")
	}
	s.execute("a", "x := 1V")
	s.want("now computed: the error above is from before", "2 V")
}

func TestConstantsAreResults(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	for code, want := range map[string]string{"2+2": "result", "Parallel(10kΩ, 22kΩ)": "result", "2*x": "display", "y := 3V": "display"} {
		s.execute("cell "+code, code)
		if got := strings.Join(s.log, ","); got != want {
			t.Errorf("%s: %s, want %s", code, got, want)
		}
	}
}

func TestPlaceholderOnlyWhereSomethingMayCome(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	s.execute("b", "y := 2*x;")
	if len(s.log) != 1 {
		t.Errorf("%q", s.log)
	}
	s.execute("a", "x := 1V + 1A")
	s.want("waits for x")
	s.execute("c", "z := 1V;")
	if len(s.log) > 0 {
		t.Errorf("%q", s.log)
	}
}

func TestSilentChangesAreCaughtUpWith(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.in("one", "a", "x := 1V", false)
	s.in("one", "b", "y := 2*x", false)
	s.in("one", "a", "x := 2V", true)
	if len(s.log) > 0 {
		t.Errorf("a silent execution sent %q", s.log)
	}
	s.in("one", "c", "z := 1", false)
	s.want("4 V")
}

func TestDeletionAndEmptyingReachDependents(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	s.execute("b", "y := 2*x")
	s.execute("a", " ")
	s.want("x is not defined", "y had a value before: 2 V")
}
