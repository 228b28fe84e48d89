package notebook

import "strings"

// layout is how a file sets out its JSON.
type layout struct {
	newline string // "\n" or "\r\n"; "" when everything stands on one line
	unit    string // the indent of one level
	colon   string // between key and value
	comma   string // between values on one line
}

var (
	// canonicalLayout is the reference writer's: indent=1, separators (",", ": ").
	canonicalLayout = layout{newline: "\n", unit: " ", colon: ": ", comma: ","}
	compactLayout   = layout{colon: ":", comma: ","}
)

// layoutOf sees how a file is set out from its outermost object.
func layoutOf(src string, root *node) layout {
	l := canonicalLayout
	first := root.members[0]
	name := first.at + len(rawName(src, first.at))
	l.colon = src[name:first.value.at]
	if strings.ContainsAny(l.colon, "\r\n") {
		l.colon = canonicalLayout.colon
	}
	lead := src[root.at+1 : first.at]
	i := strings.LastIndexByte(lead, '\n')
	if i < 0 {
		l.newline, l.unit = "", ""
		if len(root.members) > 1 {
			between := src[first.value.end():root.members[1].at]
			if !strings.ContainsAny(between, "\r\n") {
				l.comma = strings.TrimLeft(between, " \t")
			}
		}
		return l
	}
	l.unit = lead[i+1:]
	if i > 0 && lead[i-1] == '\r' {
		l.newline = "\r\n"
	}
	return l
}

// rawName gives the spelling of the text that starts there, with its quotes.
func rawName(src string, at int) string {
	i := at + 1
	for src[i] != '"' {
		if src[i] == '\\' {
			i++
		}
		i++
	}
	return src[at : i+1]
}

// indentAt gives the white space before the first character of the line.
func indentAt(src string, at int) string {
	line := src[strings.LastIndexByte(src[:at], '\n')+1 : at]
	return line[:len(line)-len(strings.TrimLeft(line, " \t"))]
}

// write writes a value; indent is that of the line it begins on.
func (l layout) write(b *strings.Builder, n *node, indent string) {
	switch n.kind {
	case null:
		b.WriteString("null")
	case boolean, number:
		b.WriteString(n.str)
	case text:
		writeText(b, n.str)
	case array:
		l.list(b, "[", "]", len(n.items), indent, func(i int, inner string) {
			l.write(b, n.items[i], inner)
		})
	case object:
		l.list(b, "{", "}", len(n.members), indent, func(i int, inner string) {
			l.member(b, n.members[i], inner)
		})
	}
}

func (l layout) member(b *strings.Builder, m *member, indent string) {
	writeText(b, m.name)
	b.WriteString(l.colon)
	l.write(b, m.value, indent)
}

// list writes brackets with count elements between them.
func (l layout) list(b *strings.Builder, open, close string, count int, indent string, element func(i int, indent string)) {
	b.WriteString(open)
	inner := indent
	if l.newline != "" {
		inner += l.unit
	}
	for i := range count {
		if i > 0 {
			b.WriteString(l.between())
		}
		b.WriteString(l.newline)
		if l.newline != "" {
			b.WriteString(inner)
		}
		element(i, inner)
	}
	if count > 0 && l.newline != "" {
		b.WriteString(l.newline)
		b.WriteString(indent)
	}
	b.WriteString(close)
}

// between is what separates two elements, up to the end of a line.
func (l layout) between() string {
	if l.newline != "" {
		return ","
	}
	return l.comma
}

// compact writes a value on one line without spaces.
func compact(n *node) string {
	var b strings.Builder
	compactLayout.write(&b, n, "")
	return b.String()
}
