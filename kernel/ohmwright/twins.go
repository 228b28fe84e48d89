package main

import (
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"reflect"
	"slices"

	"ohmwright/kernel/note"
)

// twins finds what stands in several notes of a design and may stand in one
// only: references of parts, identifiers of requirements. In one note they say
// so themselves.
type twins struct {
	first map[once]string // where each stands first
}

type once struct {
	kind reflect.Type
	what string
}

// in looks at the next note, whose place is name, and calls found for what
// stands in one before it.
func (t *twins) in(results []*note.Result, name string, found func(r, k int, what once, first, here string)) {
	here := map[once]string{}
	for i, r := range results {
		for k, it := range r.Items {
			what, line, inDesign := note.Once(it)
			if what == "" || !inDesign {
				continue
			}
			key := once{reflect.TypeOf(it), what}
			at := fmt.Sprintf("%s, %s, line %d", name, r.Label, line)
			if first := t.first[key]; first != "" {
				found(i, k, key, first, at)
			} else if here[key] == "" {
				here[key] = at
			}
		}
	}
	if t.first == nil {
		t.first = map[once]string{}
	}
	for key, at := range here {
		t.first[key] = at
	}
}

// marked gives the results of the next note, saying what stands in one before it.
func (t *twins) marked(results []*note.Result, name string) []*note.Result {
	marked := slices.Clone(results)
	t.in(results, name, func(i, k int, _ once, first, _ string) {
		r := *marked[i]
		r.Items = slices.Clone(r.Items)
		r.Items[k] = note.WithTwice(r.Items[k], first)
		marked[i] = &r
	})
	return marked
}

// twiceIn says in words what stands in several notes, once for each note.
func twiceIn(notes []*noteFile) (twice []string) {
	var t twins
	for _, n := range notes {
		told := map[once]bool{}
		t.in(n.results, filepath.ToSlash(n.path), func(_, _ int, x once, first, here string) {
			if !told[x] {
				twice = append(twice, x.what+" stands twice: in "+first+", and in "+here)
			}
			told[x] = true
		})
	}
	return twice
}

// tellTwice tells of it.
func tellTwice(stdout io.Writer, s settings, twice []string) error {
	if s.json && len(twice) > 0 {
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		return enc.Encode(map[string]any{"twice": twice})
	}
	for _, t := range twice {
		fmt.Fprintf(stdout, "missed: %s\n", t)
	}
	return nil
}
