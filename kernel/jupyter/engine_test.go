package jupyter

import (
	"context"
	"fmt"
	"strings"
	"testing"
)

// screen is an Output that keeps what a front end would show.
type screen struct {
	shown map[string]string // display id to text
	log   []string
	n     int

	by      map[string]string // display id to the cell that shows it
	running string
	meta    map[string]any // of the last display
	measure func(Bundle, map[string]any)
}

func (s *screen) DisplayData(d Bundle, meta map[string]any, id string) {
	if s.meta = meta; s.measure != nil {
		s.measure(d, meta)
	}
	s.log = append(s.log, "display")
	if id != "" {
		s.shown[id], s.by[id] = fmt.Sprint(d["text/plain"]), s.running
	} else {
		s.log = append(s.log, fmt.Sprint(d["text/plain"]))
	}
}
func (s *screen) UpdateDisplayData(d Bundle, _ map[string]any, id string) {
	if _, ok := s.shown[id]; !ok {
		s.log = append(s.log, "update of an unknown id")
	}
	s.log = append(s.log, "update")
	s.shown[id] = fmt.Sprint(d["text/plain"])
}
func (s *screen) ExecuteResult(Bundle, map[string]any) { s.log = append(s.log, "result") }
func (s *screen) Stream(name, text string)             { s.log = append(s.log, name+" "+text) }
func (s *screen) Error(name, value string, _ []string) { s.log = append(s.log, "error "+value) }
func (s *screen) ClearOutput(bool)                     {}
func (s *screen) NewDisplayID() string                 { s.n++; return fmt.Sprint("d", s.n) }

// all is what the page shows, however it is wrapped.
func (s *screen) all() string {
	var b strings.Builder
	for i := 1; i <= s.n; i++ {
		b.WriteString(strings.Join(strings.Fields(s.shown[fmt.Sprint("d", i)]), " ") + "\n")
	}
	return b.String()
}

// sitting is an engine with a screen; every cell is run through execute.
type sitting struct {
	t      *testing.T
	engine *Engine
	*screen
	count int
}

func newSitting(t *testing.T) *sitting {
	e, err := NewEngine(nil, nil)
	if err != nil {
		t.Fatal(err)
	}
	return &sitting{t: t, engine: e, screen: &screen{shown: map[string]string{}, by: map[string]string{}}}
}

func (s *sitting) execute(id, code string) ExecuteReply {
	return s.in("", id, code, false)
}

func (s *sitting) want(parts ...string) {
	s.t.Helper()
	for _, p := range parts {
		if not, ok := strings.CutPrefix(p, "not "); ok {
			if strings.Contains(s.all(), not) {
				s.t.Errorf("the page still shows %q:\n%s", not, s.all())
			}
		} else if !strings.Contains(s.all(), p) {
			s.t.Errorf("the page does not show %q:\n%s", p, s.all())
		}
	}
}

func TestEngineReplacesDependents(t *testing.T) {
	t.Parallel()
	for _, ids := range []string{"with cell ids", "without cell ids"} {
		t.Run(ids, func(t *testing.T) {
			t.Parallel()
			s := newSitting(t)
			id := func(n int) string {
				if ids == "without cell ids" {
					return ""
				}
				return fmt.Sprint("cell", n)
			}
			s.execute(id(1), "Vin := 9V // supply")
			s.execute(id(2), "R := 1kΩ\nI := Vin/R")
			s.execute(id(3), "P := Vin*I\nRequire(P <= 100mW, \"cool\")")
			s.want("9 mA", "81 mW", "holds")
			s.execute(id(1), "Vin := 12V // supply")
			s.want("12 mA", "144 mW", "FAILS", "before Vin changed: I 9 mA", "before Vin changed: P 81 mW, “cool” held")
			s.execute(id(4), "other := 1")
			s.want("12 mA", "not before")
		})
	}
}

func TestEngineHeals(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("b", "I := Vin/1kΩ")
	if len(s.log) != 2 || s.log[1] != "display" || !strings.HasPrefix(s.log[0], "error Vin is not defined") {
		t.Errorf("%q", s.log)
	}
	s.execute("a", "Vin := 9V")
	s.execute("b", "I := Vin/1kΩ")
	s.execute("c", "P := Vin*I")
	s.want("81 mW")
	if r := s.execute("a", "Vin := 9V + 1A"); r.Err == nil || !strings.Contains(r.Err.Value, "cannot add 9 V (voltage) and 1 A (current)") {
		t.Errorf("%+v", r)
	}
	s.want("waits for Vin of In [5]")
	s.execute("a", "Vin := 10V")
	s.want("100 mW", "not waits")
}

func TestEngineRetiresOlderDefinitions(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("", "a := 1V\nb := 2V")
	s.execute("", "c := a + b")
	s.want("3 V")
	s.execute("", "a := 5V")
	s.want("a is defined here now; In [1], which defined it before, is retired")
	if names := s.engine.Complete("", 0).Matches; !contains(names, "a") || contains(names, "b") {
		t.Error("b went with the cell that defined it")
	}
	s.execute("", "b := 1V")
	s.want("6 V")
}

func TestEngineDeletedCells(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	s.execute("b", "y := 2*x")
	s.count++
	s.engine.Execute(context.Background(), ExecuteRequest{Code: "z := 3V", CellID: "c", DeletedCells: []string{"a"}, Count: s.count}, s.screen)
	s.want("x is not defined")
}

func TestEngineInterrupt(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r := s.engine.Execute(ctx, ExecuteRequest{Code: "for {}", CellID: "b", Count: 2}, s.screen)
	if r.Err == nil {
		t.Error("no error")
	}
	s.execute("c", "y := 2*x")
	s.want("2 V")
}

func TestEngineHelps(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "Vout := 5V // rail [spec]\nprinted := 1")
	if c := s.engine.Complete("x := Vo", 7); !contains(c.Matches, "Vout") || !contains(c.Matches, "Voltage") || c.Start != 5 || c.End != 7 {
		t.Errorf("%+v", c)
	}
	if c := s.engine.Complete("thermal.Ju", 10); !contains(c.Matches, "Junction") || contains(c.Matches, "Vout") {
		t.Errorf("%+v", c)
	}
	if b, ok := s.engine.Inspect("2*Vout", 4, 0); !ok || !strings.Contains(fmt.Sprint(b["text/plain"]), "rail   spec") {
		t.Errorf("%v %v", b, ok)
	}
	if b, ok := s.engine.Inspect("thermal.Junction(", 12, 0); !ok || !strings.Contains(fmt.Sprint(b["text/plain"]), "JEDEC") {
		t.Errorf("%v %v", b, ok)
	}
	for code, want := range map[string]string{"x := 1V": "complete", "if true {": "incomplete", "x := )": "invalid", "f(1,": "incomplete"} {
		if got, _ := s.engine.IsComplete(code); got != want {
			t.Errorf("%s: %s, want %s", code, got, want)
		}
	}
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}
