package jupyter

import (
	"fmt"
	"strings"
	"testing"
)

// marked is a screen that keeps the forms of each display as well.
type marked struct {
	*screen
	forms map[string]Bundle
}

func (m *marked) DisplayData(d Bundle, meta map[string]any, id string) {
	m.forms[id] = d
	m.screen.DisplayData(d, meta, id)
}

func (m *marked) UpdateDisplayData(d Bundle, meta map[string]any, id string) {
	m.forms[id] = d
	m.screen.UpdateDisplayData(d, meta, id)
}

// sitMarked gives a function that runs a cell, and one that lists what stands
// on the page in Markdown.
func sitMarked(t *testing.T) (run func(session, id, code string), texts func() string, s *sitting) {
	s = newSitting(t)
	m := &marked{s.screen, map[string]Bundle{}}
	run = func(session, id, code string) {
		s.count++
		s.engine.Execute(t.Context(), ExecuteRequest{Code: code, CellID: id, Session: session, Count: s.count}, m)
	}
	return run, func() string {
		var list []string
		for i := 1; i <= s.n; i++ {
			if text, ok := m.forms[fmt.Sprint("d", i)]["text/markdown"].(string); ok {
				list = append(list, strings.TrimSpace(text))
			}
		}
		return strings.Join(list, " | ")
	}, s
}

// A text is a display of its own in text/plain and text/markdown, in the order
// of the cell, and replaced where it stands. The values are those that the
// cells state.
func TestTextsAreReplaced(t *testing.T) {
	t.Parallel()
	run, texts, s := sitMarked(t)
	run("one", "a", "Vin := 9V")
	run("one", "b", "Vout := Vin/3\nMarkdown(`The rail is **{Vout}**.`)\nI := Vout/1kΩ\nMarkdown(`It draws {I}.`)")
	run("one", "c", "Markdown(`From {Vin}.`)")
	if got := texts(); got != "The rail is **3 V**. | It draws 3 mA. | From 9 V." {
		t.Error(got)
	}
	page := s.all()
	if a, b, c, d := strings.Index(page, "Vout 3 V"), strings.Index(page, "The rail"), strings.Index(page, "I 3 mA"), strings.Index(page, "It draws"); !(0 <= a && a < b && b < c && c < d) {
		t.Errorf("out of order:\n%s", page)
	}
	run("one", "a", "Vin := 12V")
	if got := texts(); got != "The rail is **4 V**. | It draws 4 mA. | From 12 V." {
		t.Error(got)
	}
	s.want("The rail is **4 V**.", "before Vin changed: Vout 3 V", "not From 9 V")

	run("one", "a", "Vin := nope")
	s.want("waits for Vin", "not The rail", "not From")
	run("one", "a", "Vin := 15V")
	if got := texts(); got != "The rail is **5 V**. | It draws 5 mA. | From 15 V." {
		t.Error(got)
	}
}

// What is said beside a text does not take its form away, and a page that was
// loaded again is told that its text is out of date.
func TestNoticesBesideTexts(t *testing.T) {
	t.Parallel()
	run, texts, s := sitMarked(t)
	run("one", "a", "Vin := 9V")
	run("one", "b", "Markdown(`From {Vin}.`)")
	run("one", "c", "x := 1V\nMarkdown(`Also {Vin}.`)")
	run("two", "a", "Vin := 12V")
	s.want("2 results that this page may still show from before it was loaded are out of date: run all cells, or In [2], In [3] (x)")
	run("two", "d", "Markdown(`New {Vin}.`)")
	if got := texts(); !strings.Contains(got, "New 12 V.") {
		t.Error(got)
	}

	run, texts, s = sitMarked(t)
	run("one", "a", "x := 2V\n// loud\nfmt.Println(x)\n")
	run("one", "p", "fmt.Println(x)\nMarkdown(`So {x}.`)")
	run("one", "a", "x := 3V")
	if got := texts(); got != "- *computed again: the text above is from before*\n\n```\n3 V\n```\n\nSo 3 V." {
		t.Errorf("%q", got)
	}
}

// A cell that failed when it was run has no place for more than its first
// display; what it has to show then, it says.
func TestTextAfterAFailure(t *testing.T) {
	t.Parallel()
	run, texts, s := sitMarked(t)
	run("one", "a", "Vin := nope")
	run("one", "b", "x := 1V\nMarkdown(`From {Vin}.`)")
	run("one", "c", "Markdown(`Only {Vin}.`)")
	run("one", "a", "Vin := 9V")
	s.want("there is more now: run the cell to see it")
	if got := texts(); got != "Only 9 V." {
		t.Error(got)
	}
	run("one", "b", "x := 1V\nMarkdown(`From {Vin}.`)")
	if got := texts(); got != "Only 9 V. | From 9 V." {
		t.Error(got)
	}
}
