package report

import (
	"fmt"
	"strings"

	"github.com/mattn/go-runewidth"
)

// Text sets changes for a terminal of a width; 0 does not wrap. It is empty
// where there is no difference.
func Text(c *Changes, width int) string {
	t := &text{width: width}
	for i, n := range c.Notes {
		if i > 0 {
			t.b.WriteString("\n")
		}
		t.note(n)
	}
	return t.b.String()
}

type text struct {
	b     strings.Builder
	width int
}

func (t *text) note(n *NoteChanges) {
	title := n.Note
	switch {
	case n.Presence != "":
		title += ": the note is " + n.Presence
	case n.Was != "":
		title += ", was " + n.Was
	}
	t.put("", title)
	t.head("requirements", len(n.Requirements))
	for _, q := range n.Requirements {
		t.put("  ", mark(q)+"   "+q.Text)
		switch {
		case q.Was == "":
			t.put("           ", "added: "+q.Now)
		case q.Now == "":
			t.put("           ", "removed; it was: "+q.Was)
		default:
			t.put("           ", "was   "+q.Was)
			t.put("           ", "now   "+q.Now)
		}
		if q.Needs != "" {
			t.put("           ", "needs "+q.Needs+"; before it was "+q.Needed)
		}
	}
	t.values("inputs", n.Inputs)
	t.values("results, what is needed first above", n.Results)
	t.head("parts of the schematic", len(n.Parts))
	for _, p := range n.Parts {
		t.put("  ", p.Reference+": "+dash(p.Now)+", was "+dash(p.Was))
	}
	t.head("other names for the same", len(n.Renamed))
	for _, r := range n.Renamed {
		t.put("  ", r.Was+" is "+r.Now+" now")
	}
	t.head("computed in another way, with the same result", len(n.Rewritten))
	for _, r := range n.Rewritten {
		t.put("  ", r.Name+": "+r.Was)
		t.put("  "+strings.Repeat(" ", runewidth.StringWidth(r.Name)+2), r.Now)
	}
	t.head("said otherwise", len(n.Said))
	for _, s := range n.Said {
		t.put("  ", fmt.Sprintf("%s of %s: %s, was %s", s.What, s.Name, quoted(s.Now), quoted(s.Was)))
	}
	t.head("text", len(n.Prose))
	for _, p := range n.Prose {
		var words []string
		for _, w := range p.Words {
			switch w.Kind {
			case "gone":
				words = append(words, "[-"+w.Text+"-]")
			case "new":
				words = append(words, "{+"+w.Text+"+}")
			default:
				words = append(words, w.Text)
			}
		}
		t.put("  ", strings.Join(words, " "))
	}
	t.head("cells that fail now", len(n.Errors))
	for _, e := range n.Errors {
		t.put("  ", e)
	}
	t.head("cells that failed before", len(n.Mended))
	for _, e := range n.Mended {
		t.put("  ", e)
	}
}

// mark is the first word of a requirement.
func mark(q RequirementChange) string {
	switch {
	case q.Now == "":
		return "GONE "
	case strings.HasPrefix(q.Now, "fails"):
		return "FAILS"
	}
	return "holds"
}

func (t *text) head(what string, n int) {
	if n > 0 {
		t.b.WriteString("\n" + what + "\n")
	}
}

// values sets a table: name, what it was, what it is, by how much, and below
// it why.
func (t *text) values(what string, list []ValueChange) {
	t.head(what, len(list))
	var name, was, now int
	for _, v := range list {
		name = max(name, runewidth.StringWidth(v.Name))
		was = max(was, runewidth.StringWidth(dash(v.Was)))
		now = max(now, runewidth.StringWidth(dash(v.Now)))
	}
	for _, v := range list {
		line := "  " + fill(v.Name, name) + "   " + fill(dash(v.Was), was) + "   " + fill(dash(v.Now), now)
		switch {
		case v.Was == "":
			line += "   added"
		case v.Now == "":
			line += "   removed"
		case v.Change != "":
			line += "   " + v.Change
		}
		if v.Part {
			line += ", a chosen part"
		}
		if len(v.Because) > 0 {
			line += "   because of " + strings.Join(v.Because, ", ")
		}
		t.b.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

func dash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

func quoted(s string) string {
	if s == "" {
		return "nothing"
	}
	return "“" + s + "”"
}

func fill(s string, width int) string {
	return s + strings.Repeat(" ", max(0, width-runewidth.StringWidth(s)))
}

// put writes a line, wrapped behind its indent.
func (t *text) put(indent, s string) {
	if t.width <= 0 {
		t.b.WriteString(indent + s + "\n")
		return
	}
	line := ""
	for _, w := range strings.Fields(s) {
		if line != "" && runewidth.StringWidth(indent+line+" "+w) > t.width {
			t.b.WriteString(indent + line + "\n")
			line = ""
		}
		if line != "" {
			line += " "
		}
		line += w
	}
	t.b.WriteString(indent + line + "\n")
}
