package render

import (
	"strings"

	"ohmwright/kernel/note"
)

// Options of plain text.
type Options struct {
	// Width is where lines are wrapped, in cells of a terminal; 0 does not wrap.
	Width int
}

const (
	gap      = "   " // between columns
	minValue = len("because")
	minWrap  = 20 // descriptions are not squeezed below this
)

// Text sets the items of a cell as plain text with a line feed at the end of
// every line. An empty string means that there is nothing to show.
func Text(items []note.Item, o Options) string { return textOf(statements(items), o) }

func textOf(ss []statement, o Options) string {
	t := newTable(ss, o)
	for _, s := range ss {
		t.statement(s)
	}
	return spaced(t.b.String())
}

// table is text under construction and the widths of its columns.
type table struct {
	b                                  strings.Builder
	width                              int
	name, value, limits, about, source int
}

func newTable(ss []statement, o Options) *table {
	t := &table{width: o.Width, value: minValue}
	for _, s := range ss {
		for _, l := range s.lines {
			t.value = max(t.value, cells(l.label))
		}
		switch s.kind {
		case entryStatement:
			t.name = max(t.name, cells(s.name))
			if s.value.plain {
				t.value = max(t.value, cells(s.value.text))
			}
			t.limits = max(t.limits, cells(s.limits))
			t.about = max(t.about, cells(s.description))
			t.source = max(t.source, cells(s.source))
		case requirementStatement:
			t.name = max(t.name, cells(s.word))
		}
	}
	if t.width > 0 {
		t.fit()
	}
	return t
}

// fit narrows the columns of words to the width: the source gets two fifths
// of what they have together, unless either needs less.
func (t *table) fit() {
	left := t.width - t.start() - t.value - len(gap)
	if t.limits > 0 {
		left -= t.limits + len(gap)
	}
	if t.source > 0 {
		left -= len(gap)
	}
	if t.about+t.source <= left {
		return
	}
	t.source = min(t.source, max(minWrap, left*2/5, left-t.about))
	t.about = min(t.about, max(minWrap, left-t.source))
}

// start is where the value column begins.
func (t *table) start() int {
	if t.name == 0 {
		return 0
	}
	return t.name + len(gap)
}

func (t *table) statement(s statement) {
	switch s.kind {
	case printedStatement, noticeStatement:
		for _, line := range strings.Split(s.description, "\n") {
			if s.kind == noticeStatement {
				t.wrapped("", 0, line)
				continue
			}
			t.put(line)
		}
		return
	case proseStatement:
		for _, line := range proseLines(s.prose) {
			if line.fixed {
				t.put(line.text)
				continue
			}
			t.wrapped(line.text[:line.hang], line.hang, line.text[line.hang:])
		}
		return
	case whyStatement:
		w := &whyTree{width: t.width}
		w.add(s.why, 0, cells(s.why.name))
		t.b.WriteString(w.b.String())
		return
	case requirementStatement:
		t.wrapped(pad(s.word, t.name)+gap, t.start(), s.description)
	default:
		t.entry(s)
	}
	indent := strings.Repeat(" ", t.start())
	for _, l := range s.lines {
		head := indent + pad(l.label, t.value) + gap
		if l.rows != nil {
			t.rows(head, l.rows)
			continue
		}
		t.wrapped(head, t.start()+t.value+len(gap), plainParts(l.parts))
	}
}

func (t *table) entry(s statement) {
	// Text of several lines goes on below, indented.
	lines := strings.Split(s.value.text, "\n")
	first, rest := lines[0], lines[1:]
	head := ""
	if t.start() > 0 {
		head = pad(s.name, t.name) + gap
	}
	head += first
	column := t.start() + t.value
	if s.limits != "" || s.description != "" || s.source != "" {
		head = pad(head, column) + gap
		column += len(gap)
		if t.limits > 0 {
			head += pad(s.limits, t.limits) + gap
			column += t.limits + len(gap)
		}
		about, source := []string{s.description}, []string{s.source}
		if t.width > 0 {
			about, source = wrap(s.description, t.about), wrap(s.source, t.source)
		}
		for i := range max(len(about), len(source)) {
			if i > 0 {
				head = strings.Repeat(" ", column)
			}
			t.put(head + pad(lineAt(about, i), t.about) + gap + lineAt(source, i))
		}
	} else {
		t.put(head)
	}
	indent := strings.Repeat(" ", t.start())
	for _, line := range rest {
		t.put(indent + line)
	}
	t.parts(indent+"  ", s.value)
}

func lineAt(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return ""
}

// rows sets a small table: names at the left, figures at the right.
func (t *table) rows(head string, rows [][]string) {
	indent := strings.Repeat(" ", cells(head))
	for _, row := range rightAligned(rows, " ") {
		line := head
		for c, s := range row {
			if c > 0 {
				line += gap
			}
			line += s
		}
		t.put(strings.TrimRight(line, " "))
		head = indent
	}
}

// rightAligned fills the cells of each column to one width.
func rightAligned(rows [][]string, space string) [][]string {
	width := make([]int, len(rows[0]))
	for _, row := range rows {
		for c, s := range row {
			width[c] = max(width[c], cells(s))
		}
	}
	out := make([][]string, len(rows))
	for i, row := range rows {
		for c, s := range row {
			fill := strings.Repeat(space, width[c]-cells(s))
			if c == 0 {
				s += fill
			} else {
				s = fill + s
			}
			out[i] = append(out[i], s)
		}
	}
	return out
}

// parts sets the fields of a record or the items of a list, indented.
func (t *table) parts(indent string, s shape) {
	if t.records(indent, s) {
		return
	}
	width, value := 0, 0
	for _, f := range s.parts {
		width = max(width, cells(f.name))
		if f.value.limits != "" {
			value = max(value, cells(f.value.text))
		}
	}
	for _, f := range s.parts {
		lines := strings.Split(f.value.text, "\n")
		if f.value.limits != "" {
			lines[0] = pad(lines[0], value) + gap + f.value.limits
		}
		t.put(indent + pad(oneLine(f.name), width) + gap + lines[0])
		for _, line := range lines[1:] {
			t.put(indent + strings.Repeat(" ", width) + gap + line)
		}
		t.parts(indent+"  ", f.value)
	}
	t.more(indent, s)
}

// more counts the parts that are left out.
func (t *table) more(indent string, s shape) {
	if s.more > 0 {
		t.put(indent + "… " + count(s.more) + " more")
	}
}

// wrapped puts text behind head, its further lines indented.
func (t *table) wrapped(head string, indent int, text string) {
	width := 0
	if t.width > 0 {
		width = max(minWrap, t.width-indent)
	}
	for i, line := range wrap(text, width) {
		if i > 0 {
			head = strings.Repeat(" ", indent)
		}
		t.put(head + line)
	}
}

func (t *table) put(line string) {
	t.b.WriteString(strings.TrimRight(line, " "))
	t.b.WriteString("\n")
}

// plainParts writes a labelled line, with hard spaces inside quantities.
func plainParts(parts []part) string {
	var b strings.Builder
	for _, p := range parts {
		switch {
		case p.formula != nil:
			bu := builder{linear: true, numbers: p.numbers, digits: shownDigits}
			b.WriteString(oneLineHard(writePlain(bu.expr(p.formula).node)))
		case p.users != "":
			b.WriteString(p.users)
		default:
			b.WriteString(p.ours)
		}
	}
	return b.String()
}

// oneLineHard makes source in a formula safe for a terminal; hard spaces stay.
func oneLineHard(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '\n' || r == '\t' {
			return ' '
		}
		return r
	}, visible(s))
}
