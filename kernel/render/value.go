package render

import (
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/exec"
	"ohmwright/units"
)

const (
	shownDigits = 4  // significant digits of a value
	maxItems    = 12 // of a list or map; the rest is counted
	maxDepth    = 4  // of records in records
	maxText     = 2000
)

// shape is a value ready to be set: one line, or parts below it.
type shape struct {
	text   string // the value, or what kind of thing the parts make up
	plain  bool   // text is a number, with or without a unit
	limits string // of a part that spreads
	parts  []field
	more   int  // parts left out
	keyed  bool // the parts are those of a map
}

type field struct {
	name  string
	value shape
}

// shapeOf draws a view.
func shapeOf(v *cell.View, depth int) shape {
	switch v.Kind {
	case exec.KindQuantity, exec.KindNumber:
		return shape{text: scalar(v), plain: true, limits: limitsOf(v)}
	case exec.KindBool, exec.KindNil:
		return shape{text: scalar(v)}
	case exec.KindText:
		return shape{text: cutText(v.Text)}
	case exec.KindList:
		if s, ok := listLine(v); ok {
			return shape{text: s}
		}
	case exec.KindRecord, exec.KindMap:
		if len(v.Items) == 0 {
			return shape{text: kindOf(v)}
		}
	default:
		return shape{text: kindOf(v)}
	}
	s := shape{text: kindOf(v), more: v.More}
	if depth >= maxDepth {
		s.more += len(v.Items)
		return s
	}
	s.keyed = v.Kind == exec.KindMap
	items := v.Items
	if limit := maxItems; v.Kind != exec.KindRecord && len(items) > limit {
		s.more += len(items) - limit
		items = items[:limit]
	}
	for i := range items {
		s.parts = append(s.parts, field{items[i].Name, shapeOf(&items[i].Value, depth+1)})
	}
	return s
}

// kindOf says what a value is that has no line of its own.
func kindOf(v *cell.View) string {
	if v.Type != "" {
		return oneLine(v.Type)
	}
	return cutText(v.Text)
}

func scalar(v *cell.View) string {
	switch v.Kind {
	case exec.KindQuantity:
		if q, ok := v.Quantity.(units.Quantity); ok {
			return q.String()
		}
	case exec.KindNumber:
		// Six digits: 0.1 + 0.2 is 0.3; whole numbers are written in full.
		return strings.Replace(plainNumber(v.Number, 6), "-", "−", 1)
	case exec.KindNil:
		return "nil"
	}
	return cutText(v.Text)
}

// listLine writes a list of plain values in one line; one with limits needs a
// line for each.
func listLine(v *cell.View) (string, bool) {
	items, more := v.Items, v.More
	if len(items) > maxItems {
		more += len(items) - maxItems
		items = items[:maxItems]
	}
	texts := make([]string, len(items))
	for i := range items {
		switch w := &items[i].Value; w.Kind {
		case exec.KindQuantity, exec.KindNumber, exec.KindBool, exec.KindNil:
			if limitsOf(w) != "" {
				return "", false
			}
			texts[i] = scalar(w)
		case exec.KindText:
			if len(w.Text) > 40 || strings.ContainsAny(w.Text, "\n\r") {
				return "", false
			}
			texts[i] = `"` + visible(w.Text) + `"`
		default:
			return "", false
		}
	}
	line := strings.Join(texts, ", ")
	if more > 0 {
		line += ", … " + count(more) + " more"
	}
	if line == "" {
		line = "empty"
	}
	return line, true
}

func cutText(s string) string {
	if r := []rune(s); len(r) > maxText {
		return visible(string(r[:maxText])) + "…"
	}
	return visible(s)
}
