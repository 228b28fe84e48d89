package note_test

import (
	"cmp"
	"context"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
)

// halves is a note that was cut in two: the second half imports the first.
type halves struct {
	cells []randomCell // the whole
	at    int          // the first cell of the second half
	names *regexp.Regexp
}

// cut cuts a random note in front of a cell. In the random notes a cell uses
// names of those before it only, and names end in the number of their cell, so
// a text is put into the other note's words by token.
func cut(t *rapid.T, cells []randomCell) halves {
	slices.SortFunc(cells, func(a, b randomCell) int { return cmp.Or(len(a.id)-len(b.id), strings.Compare(a.id, b.id)) })
	h := halves{cells: cells, at: rapid.IntRange(1, len(cells)).Draw(t, "cut")}
	var numbers []string
	for _, c := range cells[:h.at] {
		numbers = append(numbers, strings.TrimPrefix(c.id, "c"))
	}
	h.names = regexp.MustCompile(`\b(?:[a-z]+(?:` + strings.Join(numbers, "|") + `)b?|total2)\b`)
	return h
}

// source is the text of the i-th cell in its half.
func (h halves) source(i int, text, prefix string) note.Source {
	c := h.cells[i]
	if i >= h.at {
		text = h.names.ReplaceAllStringFunc(text, func(name string) string {
			if name == "total2" { // a method
				return name
			}
			return prefix + name
		})
	}
	return note.Source{ID: c.id, Label: c.label, Code: text}
}

// first and second are the cells of the halves.
func (h halves) first(texts []string) (list []note.Source) {
	for i := range h.at {
		list = append(list, h.source(i, texts[i], ""))
	}
	return list
}

func (h halves) second(texts []string, prefix, head string) []note.Source {
	var list []note.Source
	for i, text := range strings.Split(head, "\n---\n") {
		list = append(list, note.Source{ID: fmt.Sprint("head", i), Label: fmt.Sprint("head ", i), Code: text})
	}
	for i := h.at; i < len(h.cells); i++ {
		list = append(list, h.source(i, texts[i], prefix))
	}
	return append(list, note.Source{ID: "last", Label: "last", Code: h.taken(prefix)})
}

// taken takes over every value of the first half, so that each can be compared.
func (h halves) taken(prefix string) string {
	var b strings.Builder
	for i := range h.at {
		for _, name := range h.cells[i].values {
			fmt.Fprintf(&b, "taken_%s := %s%s\n", name, prefix, name)
		}
	}
	return b.String()
}

// said is what results say of values and requirements, with the names of the
// first half as it calls them itself.
func said(rs []*note.Result, prefix string) string {
	var b strings.Builder
	for _, r := range rs {
		if strings.HasPrefix(r.ID, "head") {
			continue
		}
		fmt.Fprintf(&b, "%s: state %d\n", r.Label, r.State)
		for _, e := range r.Errors {
			fmt.Fprintf(&b, "  %s\n", e)
		}
		for _, i := range r.Items {
			switch x := i.(type) {
			case *note.Entry:
				fmt.Fprintf(&b, "  %s %s%s\n", x.Name, codeAt.ReplaceAllString(view(x.Value), ""), spreadText(x.Spread, prefix))
			case *note.Requirement:
				worst, err := json.Marshal([]any{x.Holds, x.Margin, x.Worst, x.WorstCase})
				fmt.Fprintf(&b, "  requires %s %s %v\n", x.Text, worst, err)
			case *note.Printed:
				fmt.Fprintf(&b, "  printed %q\n", x.Text)
			}
		}
	}
	return strings.ReplaceAll(b.String(), prefix, "")
}

// codeAt is what stands for a function or a pointer.
var codeAt = regexp.MustCompile(`0x[0-9a-f]+`)

func spreadText(s *note.Spread, prefix string) string {
	if s == nil {
		return ""
	}
	var sources []string
	for _, name := range s.Sources {
		sources = append(sources, strings.TrimPrefix(name, prefix))
	}
	slices.Sort(sources)
	return fmt.Sprintf(" from %s (%s) to %s (%s) by %q", s.Low, s.LowCase, s.High, s.HighCase, sources)
}

// TestNoteCutInTwo cuts random notes in two, the second of which imports the
// first or computes it as a block with nothing given: each value, limit and
// margin is that of the whole note, also after edits of either half, of which
// no run starts afresh.
func TestNoteCutInTwo(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		cells := drawNote(t)
		h := cut(t, cells)
		texts := make([]string, len(cells))
		for i, c := range cells {
			texts[i] = rapid.SampledFrom(c.texts).Draw(t, "text")
		}
		head, prefix := "import first \"first.ipynb\"", "first."
		if rapid.Bool().Draw(t, "block") {
			head, prefix = head+"\n---\nblock := first.Compute(first.Inputs{})", "block."
		}
		n := note.New(note.Options{World: world, Note: func(string) ([]note.Source, error) { return h.first(texts), nil }})
		for range rapid.IntRange(1, 4).Draw(t, "edits") {
			n.Set(h.second(texts, prefix, head))
			got := said(n.Run(context.Background()), prefix)

			whole := note.New(note.Options{World: world})
			var list []note.Source
			for i := range cells {
				list = append(list, note.Source{ID: cells[i].id, Label: cells[i].label, Code: texts[i]})
			}
			whole.Set(append(list, note.Source{ID: "last", Label: "last", Code: h.taken("")}))
			want := said(whole.Run(context.Background())[h.at:], prefix)
			if got != want {
				t.Fatalf("in two\n%s\nwhole\n%s\ncut before cell %d of the note\n%s", got, want, h.at+1, listing(list))
			}
			i := rapid.IntRange(0, len(cells)-1).Draw(t, "cell")
			texts[i] = rapid.SampledFrom(cells[i].texts).Draw(t, "edit")
		}
	})
}
