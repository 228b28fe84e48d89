package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"
	"sort"
	"strconv"

	"ohmwright/kernel/drawing"
	"ohmwright/kernel/note"
	"ohmwright/kernel/render"
	"ohmwright/units"
)

// missed lists, in words, what is not as it has to be, and what is waived.
func (n *noteFile) missed() (missed, waived []string) {
	for _, r := range n.results {
		for _, it := range r.Items {
			if t := render.Twice(it); t != "" {
				missed = append(missed, t)
			}
			switch {
			case note.Fails(note.WithTwice(it, "")):
				missed = append(missed, render.Verdict(it))
			default:
				if q, ok := it.(*note.Requirement); ok && q.Waived != "" {
					waived = append(waived, q.Text+": "+q.Waived)
				}
			}
		}
	}
	return missed, waived
}

// place is where a part stands in a design.
type place struct {
	part *note.Part
	at   string
}

// partsOf lists the parts of a design, each once.
func partsOf(notes []*noteFile) (parts []place) {
	known := map[string]bool{}
	for _, n := range notes {
		for _, r := range n.results {
			for _, it := range r.Items {
				if p, ok := it.(*note.Part); ok && !known[p.Reference] {
					known[p.Reference] = true
					parts = append(parts, place{p, fmt.Sprintf("%s, %s, line %d", filepath.ToSlash(n.path), r.Label, p.Line)})
				}
			}
		}
	}
	return parts
}

// walk compares what two records say beside values and margins. Numbers may
// differ by the tolerance; same is false where some do.
func walk(what string, a, b any, tolerance float64, same *bool, add func(what, stored, now string)) {
	x, y := plainJSON(a), plainJSON(b)
	var visit func(at string, x, y any)
	visit = func(at string, x, y any) {
		switch p := x.(type) {
		case map[string]any:
			q, ok := y.(map[string]any)
			if !ok {
				add(at, "a record", jsonText(y))
				return
			}
			keys := map[string]bool{}
			for k := range p {
				keys[k] = true
			}
			for k := range q {
				keys[k] = true
			}
			var sorted []string
			for k := range keys {
				sorted = append(sorted, k)
			}
			sort.Strings(sorted)
			for _, k := range sorted {
				visit(k+" of "+at, p[k], q[k])
			}
		case []any:
			q, _ := y.([]any)
			for i := range max(len(p), len(q)) {
				var l, m any
				if i < len(p) {
					l = p[i]
				}
				if i < len(q) {
					m = q[i]
				}
				visit(itemName(at, i, l, m), l, m)
			}
		case float64:
			q, ok := y.(float64)
			if !ok || !near(p, q, tolerance) {
				add(at, jsonText(x), jsonText(y))
			} else if p != q {
				*same = false
			}
		default:
			if list, ok := y.([]any); ok && x == nil && len(list) > 0 {
				visit(at, []any{}, y)
				return
			}
			if jsonText(x) != jsonText(y) {
				add(at, jsonText(x), jsonText(y))
			}
		}
	}
	visit(what, x, y)
}

// itemName names an item of a list by what it says of itself.
func itemName(at string, i int, items ...any) string {
	for _, it := range items {
		m, _ := it.(map[string]any)
		for _, k := range []string{"reference", "id", "name", "text", "what"} {
			if s, ok := m[k].(string); ok && s != "" {
				return at + " " + quote(s)
			}
		}
	}
	return at + " " + strconv.Itoa(i+1)
}

// plainJSON is a record as any reader of it sees it.
func plainJSON(x any) (v any) {
	text, err := json.Marshal(x)
	if err == nil {
		err = json.Unmarshal(text, &v)
	}
	if err != nil {
		return err.Error()
	}
	return v
}

func jsonText(x any) string {
	switch x := x.(type) {
	case nil:
		return "nothing"
	case string:
		return quote(x)
	case float64:
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	text, _ := json.Marshal(x) // of plain maps and lists
	return string(text)
}

// sideOf is what a requirement's record says beside its verdict and margins.
func sideOf(q note.RequirementRecord) any {
	return struct {
		ID          string             `json:"identifier,omitempty"`
		Description string             `json:"description,omitempty"`
		Source      string             `json:"source,omitempty"`
		Reason      string             `json:"reason,omitempty"`
		Waived      string             `json:"waiver,omitempty"`
		Twice       string             `json:"twice,omitempty"`
		Rating      *note.RatingRecord `json:"rating,omitempty"`
	}{q.ID, q.Description, q.Source, q.Reason, q.Waived, q.Twice, q.Rating}
}

// tellList holds a list of parts against those of the notes and reports
// whether they differ.
func tellList(stdout io.Writer, s settings, path string, lines []drawing.Line, notes []*noteFile, parts []place) (bool, error) {
	ratings := map[string][]units.Quantity{}
	for _, n := range notes {
		for _, r := range n.results {
			for _, it := range r.Items {
				if q, ok := it.(*note.Requirement); ok && q.Rating != nil {
					ratings[q.Rating.Reference] = append(ratings[q.Rating.Reference], q.Rating.Limit)
				}
			}
		}
	}
	var design []drawing.Part
	for _, p := range parts {
		tolerance, _ := p.part.Tolerance()
		design = append(design, drawing.Part{Reference: p.part.Reference, Text: p.part.Text(), Value: p.part.Value, Words: p.part.Words != "", Tolerance: tolerance, Ratings: ratings[p.part.Reference], Where: p.at})
	}
	diffs, agree := drawing.Compare(lines, design)
	if s.json {
		enc := json.NewEncoder(stdout)
		enc.SetEscapeHTML(false)
		if diffs == nil {
			diffs = []drawing.Difference{}
		}
		return len(diffs) > 0, enc.Encode(map[string]any{"values": filepath.ToSlash(path), "agree": agree, "differences": diffs})
	}
	if len(diffs) == 0 {
		_, err := fmt.Fprintf(stdout, "%s: %s\n", path, countOf(agree, "part agrees", "parts agree"))
		return false, err
	}
	fmt.Fprintf(stdout, "%s: %s, not alike:\n", path, countOf(agree, "part agrees", "parts agree"))
	for _, d := range diffs {
		line := "  differs  "
		if d.Reference != "" {
			line += d.Reference + ", "
		}
		line += d.What
		switch {
		case d.List != "" && d.Design != "":
			line += ": list " + d.List + ", design " + d.Design
		case d.List+d.Design != "":
			line += ": " + d.List + d.Design
		}
		if d.Row > 0 {
			line += fmt.Sprintf(" (row %d)", d.Row)
		}
		fmt.Fprintln(stdout, line)
	}
	return true, nil
}

// withoutPath is an error of a file whose name was already said.
func withoutPath(err error) error {
	var of *fs.PathError
	if errors.As(err, &of) {
		return of.Err
	}
	return err
}
