package jupyter

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"ohmwright/kernel/note"
)

func TestUnchangedTextIsTheSameCell(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	for range 3 {
		s.execute("", "x := 1V")
		s.execute("", "2*x")
		s.execute("", "Require(x < 2V, \"low\")")
	}
	if len(s.engine.order) != 3 {
		t.Errorf("%d cells", len(s.engine.order))
	}
}

func TestRenameWithoutIDsTellsOfTheOldName(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("", "Vin := 9V // supply")
	s.execute("", "I := Vin/1kΩ")
	s.execute("", "Vsup := 9V // supply")
	const told = "Vin of In [1] stays defined: if this is that cell with another name, restart the kernel and run all cells to be rid of the old one"
	s.want(told)
	s.execute("", "P := Vsup*I")
	s.want("not " + told) // else it would stand in a note that has two such cells
}

func TestNewDefinitionTellsTheOldValue(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("", "U := 9V ± 1%")
	s.execute("", "U := 12V")
	s.want("before: U 9 V")
	s.execute("", "U := 12V ± 5%")
	s.execute("", "U := 12V ± 1%")
	s.want("before: U 12 V (11.4 V … 12.6 V)")
}

func TestSecondDefinitionWithIDsNamesBothCells(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V")
	r := s.execute("b", "x := 2V")
	if r.Err == nil || !strings.Contains(r.Err.Value, "x is defined twice: here, in In [2], and in In [1]") {
		t.Errorf("%+v", r.Err)
	}
	s.execute("a", "y := 1V") // heals the other
	s.want("computed again: the error above is from before", "2 V")
}

// A page that was loaded again may call its cells by other ids.
func TestNewIDsUnderANewSessionRetireTheOld(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.in("one", "vscode:/cell-1", "x := 1V", false)
	s.in("one", "vscode:/cell-2", "y := 2*x", false)
	if r := s.in("two", "vscode:/cell-3", "x := 2V", false); r.Err != nil {
		t.Errorf("%+v", r.Err)
	}
	s.want("x is defined here now; In [1], run from another page or before this one was loaded, is retired", "before x changed: y 2 V")
}

// Two pages in turn: every output is told of once.
func TestTwoPagesInTurnAreNotDrowned(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.in("one", "a", "x := 1V", false)
	s.in("one", "b", "y := 2*x", false)
	told := 0
	for i := range 10 {
		session := []string{"one", "two"}[i%2]
		before := strings.Count(s.all(), "out of date")
		s.in(session, fmt.Sprint("new ", i), fmt.Sprintf("z%d := %d", i, i), false)
		s.in(session, "a", fmt.Sprintf("x := %dV", i+2), false)
		if now := strings.Count(s.all(), "out of date"); now > before {
			told += now - before
		}
	}
	if told == 0 || told > 2 {
		t.Errorf("told %d times", told)
	}
}

func TestOldValuesNameOnlyWhatMovedThem(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 1V\nunused := 1A")
	s.execute("b", "y := 2*x\nz := 3V")
	s.execute("c", "type pair struct{ First, Second Quantity }\np := pair{y, 2*z}")
	s.execute("d", "p.First + 1V")
	s.execute("a", "x := 2V\nunused := 2A")
	s.want("before x changed: y 2 V", "before x changed: p.First 2 V", "before x changed: p.First + 1 V 3 V", "not p.Second 6 V,", "not before x, unused")
}

// A picture is a display of its own that is replaced as the other is.
func TestPicturesAreReplaced(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.engine.picture = func(i note.Item) map[string]string {
		if e, ok := i.(*note.Entry); ok && e.Name == "y" && e.Value.Text != "4 V" {
			return map[string]string{"text/plain": "picture of " + e.Value.Text}
		}
		return nil
	}
	s.execute("a", "x := 1V")
	s.execute("b", "y := 2*x")
	s.want("picture of 2 V")
	s.execute("a", "x := 3V")
	s.want("picture of 6 V", "not picture of 2 V")
	s.execute("a", "x := 2V")
	s.want("not picture of")
	s.execute("b", "y := 2*x")
	s.execute("a", "x := 1V")
	s.want("there is a picture now: run the cell to see it")
}

func TestInterruptedCellIsNotTriedAgainByItself(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if r := s.engine.Execute(ctx, ExecuteRequest{Code: "for {}", CellID: "b", Count: 1}, s.screen); r.Err == nil {
		t.Error("no error")
	}
	for i := range 3 { // each would run into the limit of steps
		s.execute("c", fmt.Sprintf("y := %d", i))
	}
	if code := s.engine.note.Run(context.Background())[0]; code.Ran {
		t.Error("it ran again")
	}
}

// What no page could hold is shown in part, and says how to see all, the record
// for other programs beside it too.
func TestLargeValuesAreCut(t *testing.T) {
	t.Parallel()
	for code, left := range map[string]string{
		"var list []Quantity\nfor i := range 100_000 {\n\tlist = append(list, Quantity(i)*1V)\n}":                         `{"list":99900}`,
		"m := map[string]Quantity{}\nfor i := range 3000 {\n\tm[fmt.Sprint(i)] = 1V\n}":                                   `{"m":2900}`,
		"type pair struct{ A, B Quantity }\nvar pairs []pair\nfor range 5000 {\n\tpairs = append(pairs, pair{1V, 2V})\n}": `{"pairs":4900}`,
		"table := make([][]float64, 100)\nfor i := range table {\n\ttable[i] = make([]float64, 100)\n}":                   `"table":80`,
		"text := strings.Repeat(\"long \", 1_000_000)":                                                                    `{"text":4990000}`,
	} {
		s := newSitting(t)
		sent := 0
		s.screen.measure = func(d Bundle, meta map[string]any) {
			for _, v := range d {
				sent += len(v.(string))
			}
			sent += len(fmt.Sprintf("%s", meta[note.RecordKey]))
		}
		if r := s.execute("a", code); r.Err != nil {
			t.Error(r.Err)
		}
		if sent > 300_000 {
			t.Errorf("%s: %d bytes were sent", code, sent)
		}
		if meta := fmt.Sprintf("%s", s.screen.meta[note.RecordKey]); !strings.Contains(meta, left) {
			t.Errorf("%s: the record does not tell that it leaves out %s: …%s", code, left, meta[max(0, len(meta)-300):])
		}
		if strings.HasPrefix(code, "var list") {
			s.want("list has 100000 items: to see all, print them in parts, each in a cell of its own")
		}
	}
}

// A Trend is a picture in two forms, and is replaced when anything changes that
// it computes anew, although its name stays what it was.
func TestTrendIsReplaced(t *testing.T) {
	t.Parallel()
	s := newSitting(t)
	s.execute("a", "x := 2V")
	s.execute("b", "k := x*x/1V")
	s.execute("c", "y := k + 1V")
	s.execute("d", "Trend(y, x, 0V, 4V)")
	s.want("highest 17 V at 4 V", "picture: y over x") // 4·4 + 1
	picture := func() string {
		r := s.engine.note.Run(context.Background())[3]
		_, pictures := s.engine.results(r, "")
		if len(pictures) != 1 || len(pictures[0]) != 3 {
			t.Fatalf("%d pictures", len(pictures))
		}
		return fmt.Sprint(pictures[0]["image/svg+xml"])
	}
	before := picture()
	s.execute("b", "k := x*2") // k is 4 V as before
	s.want("highest 9 V at 4 V", "not highest 17 V")
	if picture() == before {
		t.Error("the picture stays")
	}
}
