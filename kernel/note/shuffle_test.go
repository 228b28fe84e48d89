package note_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
)

func sortNames(names []string) { slices.Sort(names) }

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
	rapid.Check(t, func(t *rapid.T) {
		cells := drawNote(t)
		target := map[string]string{}
		var fresh []note.Source
		for _, c := range cells {
			target[c.id] = rapid.SampledFrom(c.texts).Draw(t, "text")
			fresh = append(fresh, note.Source{ID: c.id, Label: c.label, Code: target[c.id]})
		}
		n := note.New(note.Options{World: world})
		n.Set(fresh)
		rs := n.Run(context.Background())
		if e := firstError(rs); e != nil {
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
			switch rapid.IntRange(0, 9).Draw(t, "what") {
			case 0:
				text += "\npanic(\"a mistake\")"
			case 1:
				text += "\nx := ("
			case 2:
				text += "\n" + target[rapid.SampledFrom(cells).Draw(t, "double").id]
			case 3:
				text = "_ = 1"
			case 4:
				s.Again(c.id)
				s.Run(context.Background())
				continue
			case 5:
				s.Remove(c.id)
				delete(s.texts, c.id)
				s.Run(context.Background())
				continue
			case 6: // nothing but the text changes
				text = target[c.id] + "\n// said"
			}
			s.put(c, text, whole)
		}
		for _, c := range rapid.Permutation(cells).Draw(t, "back") {
			if s.texts[c.id] != target[c.id] {
				s.put(c, target[c.id], rapid.Bool().Draw(t, "whole"))
			}
		}
		got := byID(s.Run(context.Background()))
		for _, c := range cells {
			if got[c.id] != want[c.id] {
				t.Fatalf("after editing\n%s\nfresh\n%s\nof the note\n%s", got[c.id], want[c.id], listing(fresh))
			}
		}
	})
}

func byID(rs []*note.Result) map[string]string {
	m := map[string]string{}
	for _, r := range rs {
		m[r.ID] = dump([]*note.Result{r})
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
