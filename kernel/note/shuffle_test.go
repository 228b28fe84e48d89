package note_test

import (
	"context"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// session is a note as somebody at a front end works on it.
type session struct {
	*note.Note
	all   []randomCell
	texts map[string]string // by id, of the cells that were run so far
}

// put gives a cell a text and runs the note, as a front end does that knows
// the cells which were run, or one that knows the whole document.
func (s *session) put(c randomCell, text string, whole bool) []*note.Result {
	s.texts[c.id] = text
	if !whole {
		s.Put(note.Source{ID: c.id, Label: c.label, Code: text})
		return s.Run(context.Background())
	}
	var list []note.Source
	for _, x := range s.all {
		if text, ok := s.texts[x.id]; ok {
			list = append(list, note.Source{ID: x.id, Label: x.label, Code: text})
		}
	}
	s.Set(list)
	return s.Run(context.Background())
}

// TestAnyOrderOfRunning runs random notes in any order of their cells, with
// mistakes, edits and reverts in between: in the end the note holds what a
// fresh run from top to bottom gives.
func TestAnyOrderOfRunning(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) { anyOrder(t, false) })
}

// TestAnyOrderWithMistakes does the same with notes that have mistakes in the
// end: what fails, what waits and why must not depend on the order either.
func TestAnyOrderWithMistakes(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) { anyOrder(t, true) })
}

func anyOrder(t *rapid.T, mistakes bool) {
	cells := drawNote(t)
	target := map[string]string{}
	for _, c := range cells {
		target[c.id] = rapid.SampledFrom(c.texts).Draw(t, "text")
	}
	if mistakes {
		for range rapid.IntRange(1, 3).Draw(t, "mistakes") {
			c := rapid.SampledFrom(cells).Draw(t, "wrong")
			target[c.id] = drawMistake(t, c, target)
		}
	}
	var fresh []note.Source
	for _, c := range cells {
		fresh = append(fresh, note.Source{ID: c.id, Label: c.label, Code: target[c.id]})
	}
	n := note.New(note.Options{World: world})
	n.Set(fresh)
	rs := n.Run(context.Background())
	if e := firstError(rs); e != nil && !mistakes {
		t.Fatalf("the note itself: %s %d:%d: %s\n%s", e.Cell, e.Line, e.Column, e, listing(fresh))
	}
	want := byID(rs)

	s := &session{Note: note.New(note.Options{World: world}), all: cells, texts: map[string]string{}}
	for _, c := range rapid.Permutation(cells).Draw(t, "order") {
		s.put(c, target[c.id], rapid.Bool().Draw(t, "whole"))
	}
	for range rapid.IntRange(0, 8).Draw(t, "edits") {
		c := rapid.SampledFrom(cells).Draw(t, "cell")
		text := rapid.SampledFrom(c.texts).Draw(t, "edit")
		whole := rapid.Bool().Draw(t, "whole")
		switch rapid.IntRange(0, 6).Draw(t, "what") {
		case 0, 1:
			text = drawMistake(t, c, target)
		case 2:
			s.Again(c.id)
			s.Run(context.Background())
			continue
		case 3:
			s.Remove(c.id)
			delete(s.texts, c.id)
			s.Run(context.Background())
			continue
		case 4: // nothing but the text changes
			text = target[c.id] + "\n// said"
		}
		s.put(c, text, whole)
	}
	for _, c := range rapid.Permutation(cells).Draw(t, "back") {
		if s.texts[c.id] != target[c.id] {
			s.put(c, target[c.id], rapid.Bool().Draw(t, "whole"))
		}
	}
	if mistakes {
		s.Set(fresh) // which of two definitions holds is a matter of the order in the document
	}
	got := byID(s.Run(context.Background()))
	for _, c := range cells {
		if got[c.id] != want[c.id] {
			t.Fatalf("after editing\n%s\nfresh\n%s\nof the note\n%s", got[c.id], want[c.id], listing(fresh))
		}
	}
}

// drawMistake spoils the text of a cell.
func drawMistake(t *rapid.T, c randomCell, target map[string]string) string {
	text := rapid.SampledFrom(c.texts).Draw(t, "good")
	switch rapid.IntRange(0, 6).Draw(t, "mistake") {
	case 0:
		return text + "\npanic(\"a mistake\")"
	case 1:
		return text + "\nx := ("
	case 2: // a second definition
		var ids []string
		for id := range target {
			ids = append(ids, id)
		}
		slices.Sort(ids)
		return text + "\n" + target[rapid.SampledFrom(ids).Draw(t, "double")]
	case 3:
		return "_ = 1"
	case 4:
		return text + "\n_ = 1V + 1A"
	case 5:
		return text + "\n_ = nowhere"
	}
	// A use of any other cell's name, which may close a circle.
	number := rapid.IntRange(1, len(target)).Draw(t, "number")
	return text + fmt.Sprintf("\n_ = %s%d", rapid.SampledFrom([]string{"q", "i", "n", "s", "v", "f"}).Draw(t, "kind"), number)
}

// guesses are what an error proposes for an unknown name: the names that were
// there when the cell was checked.
var guesses = regexp.MustCompile(`: did you mean [^?]*\?|: define it in any cell of the note, \w+ := …`)

func byID(rs []*note.Result) map[string]string {
	m := map[string]string{}
	for _, r := range rs {
		m[r.ID] = guesses.ReplaceAllString(dump([]*note.Result{r}), "")
	}
	return m
}

func listing(cells []note.Source) string {
	var b strings.Builder
	for _, c := range cells {
		b.WriteString("--- " + c.Label + " (" + c.ID + ")\n" + c.Code + "\n")
	}
	return b.String()
}

// TestWhatIfIsAnEdit sets names from outside, in random notes: everything that
// is computed is what it is with the value written into the note, and taking
// the setting back gives the note as it was. Choices are made anew, which
// redesign asks for.
func TestWhatIfIsAnEdit(t *testing.T) {
	t.Parallel()
	other := map[byte]string{'q': "7.25V", 'n': "3.125", 'i': "11"}
	rapid.Check(t, func(t *rapid.T) {
		cells := drawNote(t)
		var fresh []note.Source
		set := map[string]string{}
		edited := map[string]string{}
		for _, c := range cells {
			text := rapid.SampledFrom(c.texts).Draw(t, "text")
			fresh = append(fresh, note.Source{ID: c.id, Label: c.label, Code: text})
			name, _, ok := strings.Cut(text, " := ")
			if plain := ok && !strings.ContainsAny(text, "\n/±("); plain && other[name[0]] != "" && name[1:] == c.id[1:] && rapid.Bool().Draw(t, "set") {
				set[name] = other[name[0]]
				edited[c.id] = name + " := " + other[name[0]]
			}
		}
		n := note.New(note.Options{World: world})
		n.Set(fresh)
		design := values(n.Run(context.Background()))
		if err := n.WhatIf(set, true); err != nil {
			t.Fatal(err)
		}
		got := values(n.Run(context.Background()))
		var written []note.Source
		for _, s := range fresh {
			if text := edited[s.ID]; text != "" {
				s.Code = text
			}
			written = append(written, s)
		}
		w := note.New(note.Options{World: world})
		w.Set(written)
		if want := values(w.Run(context.Background())); got != want {
			t.Fatalf("with %v set\n%s\nwritten\n%s\nin the note\n%s", set, got, want, listing(fresh))
		}
		if err := n.WhatIf(nil, false); err != nil {
			t.Fatal(err)
		}
		if back := values(n.Run(context.Background())); back != design {
			t.Fatalf("after %v was set and taken back\n%s\nbefore\n%s\nof the note\n%s", set, back, design, listing(fresh))
		}
	})
}

// values lists what names came to, and errors.
func values(rs []*note.Result) string {
	var b strings.Builder
	for _, r := range rs {
		for _, e := range r.Errors {
			b.WriteString(e.Error() + "\n")
		}
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Entry:
				b.WriteString(x.Name + " " + view(x.Value) + "\n")
			case *note.Requirement:
				b.WriteString(x.Text + " " + view(*x.Condition.Value) + "\n")
			case *note.Printed:
				b.WriteString(x.Text)
			}
		}
	}
	return b.String()
}

// TestChosenPartsStay sets inputs from outside without asking for a redesign:
// in random notes, every part that was chosen is the same part.
func TestChosenPartsStay(t *testing.T) {
	t.Parallel()
	const parts = `func pick(v Quantity) Quantity { return AtLeast(E12, v/1mA) }
first := Nearest(E96, U/1.7mA)
second := AtMost(E24, first*2) ± 1%
third := pick(U) + pick(2*U)
var list []Quantity
for i := range 4 { list = append(list, Nearest(E24, U*float64(i+1)/1mA)) }
byHand := 2 * Nearest(E6, U/3mA)`
	rapid.Check(t, func(t *rapid.T) {
		volts := rapid.IntRange(1, 900)
		U := volts.Draw(t, "U")
		codes := []string{fmt.Sprintf("U := %dV", U), parts, "sum := first + second + third\nfor _, r := range list { sum += r }\nI := U / sum"}
		order := rapid.Permutation(sources(codes...)).Draw(t, "order")
		n := note.New(note.Options{World: world})
		n.Set(order)
		design := n.Run(context.Background())
		for range rapid.IntRange(1, 3).Draw(t, "settings") {
			set := volts.Draw(t, "set")
			if err := n.WhatIf(map[string]string{"U": fmt.Sprintf("%dV", set)}, false); err != nil {
				t.Fatal(err)
			}
			rs := n.Run(context.Background())
			for _, name := range []string{"first", "second", "third", "list", "byHand", "sum"} {
				if got, want := text(rs, name), text(design, name); got != want {
					t.Fatalf("U set to %d V: %s is %s, the design has %s", set, name, got, want)
				}
			}
			if e := entry(rs, "first"); set != U && (e == nil || e.Choice == nil || !e.Choice.Kept) {
				t.Fatalf("U set to %d V: the entry does not say that the part was kept", set)
			}
			sum := entry(rs, "sum").Value.Quantity.(units.Quantity)
			if i := entry(rs, "I").Value.Quantity.(units.Quantity); i.SI() != float64(set)/sum.SI() {
				t.Fatalf("U set to %d V: the current is %v", set, i)
			}
		}
		if err := n.WhatIf(nil, false); err != nil {
			t.Fatal(err)
		}
		if got, want := dump(n.Run(context.Background())), dump(design); got != want {
			t.Fatalf("taken back\n%s\nthe design\n%s", got, want)
		}
	})
}
