package jupyter

import (
	"context"
	"strings"
	"testing"
)

func (s *sitting) in(session, id, code string, silent bool) ExecuteReply {
	s.count++
	s.log = nil
	for shown, by := range s.by { // the front end clears the cell
		if by == id && id != "" && !silent {
			delete(s.shown, shown)
		}
	}
	s.running = id
	return s.engine.Execute(context.Background(), ExecuteRequest{Code: code, CellID: id, Session: session, Count: s.count, Silent: silent}, s.screen)
}

func TestReloadedPageIsToldOfStaleResults(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.in("one", "a", "Vin := 9V", false)
	s.in("one", "b", "I := Vin/1kΩ", false)
	s.in("two", "a", "Vin := 12V", false)
	s.want("1 result that this page may still show from before it was loaded is out of date: run all cells, or In [2] (I)")
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
	s.want("computed again: the error above is from before", "2 V")
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

// What shows nothing has no output that would stand in the stored note.
func TestNoDisplayOfNothing(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	for _, code := range []string{"y := 2*x;", "z := 1V;", "func f(v Quantity) Quantity { return 2*v }"} {
		s.execute("cell "+code, code)
		if strings.Contains(strings.Join(s.log, ","), "display") && !strings.HasPrefix(code, "func") {
			t.Errorf("%s: %q", code, s.log)
		}
	}
	s.execute("a", "x := 1V + 1A")
	s.want("run again what would show something else now and cannot be replaced where it stands: In [2] (y)")
	s.execute("a", "x := 2V")
	s.want("not run again")
}

func TestPrintedTextIsReplacedBelow(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	s.execute("b", "fmt.Println(2*x)")
	if got := strings.Join(s.log, ","); got != "stdout 2 V\n,display" {
		t.Errorf("%q", got)
	}
	s.execute("a", "x := 3V")
	s.want("computed again: the text above is from before", "6 V")
	s.execute("a", "x := 1V")
	s.want("not computed again", "not 6 V")
	s.execute("c", "fmt.Println(1)")
	if got := strings.Join(s.log, ","); got != "stdout 1\n" {
		t.Errorf("%q", got)
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
	s.want("x is not defined", "before: y 2 V")
}
