package drawing

import (
	"fmt"
	"sort"
	"strconv"
	"strings"

	"ohmwright/units"
)

// Part is a part as the design has it.
type Part struct {
	Reference string
	Text      string // the value as people write it
	Value     units.Quantity
	Words     bool             // Text is no value but says what it is
	Tolerance float64          // a share; 0 where it is not known
	Ratings   []units.Quantity // what the design takes the part to stand
	Where     string
}

// Difference is one thing in which the list and the design differ.
type Difference struct {
	Reference string `json:"reference"`
	Row       int    `json:"row,omitempty"` // of the list
	What      string `json:"what"`          // "value", "tolerance", "rating", "only in the list", …
	List      string `json:"list"`
	Design    string `json:"design"`
}

// Compare lists every difference, by reference in its natural order, and how
// many parts agree.
func Compare(lines []Line, parts []Part) (diffs []Difference, agree int) {
	design := map[string]Part{}
	for _, p := range parts {
		design[p.Reference] = p
	}
	seen := map[string]Line{}
	for _, l := range lines {
		if l.Trouble != "" {
			diffs = append(diffs, Difference{Row: l.Row, What: "references", List: l.Trouble})
		}
		for _, ref := range l.References {
			if first, twice := seen[ref]; twice {
				diffs = append(diffs, Difference{Reference: ref, Row: l.Row, What: "stands twice in the list", List: fmt.Sprintf("%s, and %s in row %d", l.Value, first.Value, first.Row)})
				continue
			}
			seen[ref] = l
			p, known := design[ref]
			if !known {
				if !unmounted(l.Value) {
					diffs = append(diffs, Difference{Reference: ref, Row: l.Row, What: "only in the list", List: l.Value})
				}
				continue
			}
			found := p.differences(l)
			if len(found) == 0 {
				agree++
			}
			diffs = append(diffs, found...)
		}
	}
	for _, p := range parts {
		if _, ok := seen[p.Reference]; !ok {
			diffs = append(diffs, Difference{Reference: p.Reference, What: "only in the design", Design: p.Text + " (" + p.Where + ")"})
		}
	}
	sort.SliceStable(diffs, func(i, j int) bool { return before(diffs[i].Reference, diffs[j].Reference) })
	return diffs, agree
}

// unmounted reports whether a value says that its part is not fitted.
func unmounted(text string) bool {
	v, _ := ReadValue(text, "Ω")
	return v.NotFitted
}

// differences holds one part against what the list says of it.
func (p Part) differences(l Line) (diffs []Difference) {
	add := func(what, list, design string) {
		diffs = append(diffs, Difference{p.Reference, l.Row, what, list, design})
	}
	if p.Words {
		switch {
		case unmounted(l.Value):
			add("not fitted", l.Value, p.Text)
		case strings.TrimSpace(l.Value) == "":
			add("has no value in the list", "", p.Text)
		case !sameWords(l.Value, p.Text):
			add("value", l.Value, p.Text)
		}
		return diffs
	}
	v, err := ReadValue(l.Value, p.Value.SIUnit())
	switch {
	case err != nil:
		add("value cannot be read", err.Error(), p.Text)
		return diffs
	case v.NotFitted:
		add("not fitted", l.Value, p.Text)
		return diffs
	case !equal(v.Quantity.SI(), p.Value.SI()):
		add("value", v.Quantity.AsBought(), p.Text)
	}
	if v.Tolerance > 0 && p.Tolerance > 0 && !equal(v.Tolerance, p.Tolerance) {
		add("tolerance", percent(v.Tolerance), percent(p.Tolerance))
	}
	for _, r := range v.Ratings {
		var other *units.Quantity
		for i, q := range p.Ratings {
			switch {
			case q.Dim() != r.Dim():
			case equal(q.SI(), r.SI()):
				other = nil
			default:
				other = &p.Ratings[i]
			}
			if q.Dim() == r.Dim() && other == nil {
				break
			}
		}
		if other != nil {
			add("rating", r.String(), other.String())
		}
	}
	return diffs
}

func percent(share float64) string { return strconv.FormatFloat(share*100, 'g', 3, 64) + " %" }

// before orders references: letters, then numbers by their size.
func before(a, b string) bool {
	x, y := one.FindStringSubmatch(a), one.FindStringSubmatch(b)
	if x == nil || y == nil {
		return x == nil && y != nil
	}
	m, _ := strconv.Atoi(x[2])
	n, _ := strconv.Atoi(y[2])
	switch {
	case x[1] != y[1]:
		return x[1] < y[1]
	case m != n:
		return m < n
	}
	return x[3] < y[3]
}
