package render

import (
	"strings"

	"ohmwright/kernel/note"
)

// Markdown sets the items of a cell as a list: the result with its name,
// below it the labelled lines, formulas as TeX between dollar signs.
func Markdown(items []note.Item) string {
	var b strings.Builder
	fenced := false
	for _, s := range statements(items) {
		block := s.kind == printedStatement || s.kind == proseStatement
		if fenced || block {
			b.WriteString("\n") // a list and a block need an empty line between them
		}
		fenced = block
		markdownStatement(&b, s)
	}
	return strings.TrimPrefix(b.String(), "\n")
}

func markdownStatement(b *strings.Builder, s statement) {
	switch s.kind {
	case printedStatement:
		fence := "```"
		for strings.Contains(s.description, fence) {
			fence += "`"
		}
		b.WriteString(fence + "\n" + s.description + "\n" + fence + "\n")
		return
	case proseStatement:
		b.WriteString(Prose(s.prose) + "\n")
		return
	case whyStatement:
		markdownWhy(b, s.why, "")
		return
	case noticeStatement:
		b.WriteString("- *" + MarkdownText(s.description) + "*\n")
		return
	case requirementStatement:
		b.WriteString("- **" + s.word + "** " + MarkdownText(s.description) + "\n")
	default:
		b.WriteString("- " + markdownEntry(s) + "\n")
		markdownFields(b, "  ", s.value)
	}
	for _, l := range s.lines {
		if l.rows != nil {
			markdownTable(b, l)
			continue
		}
		b.WriteString("  - " + l.label + " " + markdownParts(l.parts) + "\n")
	}
}

func markdownEntry(s statement) string {
	out := ""
	switch {
	case s.spoken:
		out = MarkdownBlock(s.name) + " "
	case s.name != "":
		out = write(nameNode(s.name), MarkdownMath) + " "
	}
	if s.value.plain {
		out += "**" + s.value.text + "**"
	} else {
		if out == "" {
			out = MarkdownBlock(s.value.text)
		} else {
			out += MarkdownText(s.value.text)
		}
	}
	if s.limits != "" {
		out += ", " + s.limits
	}
	if s.description != "" {
		out += ": " + MarkdownText(s.description)
	}
	if s.source != "" {
		out += " (" + MarkdownText(s.source) + ")"
	}
	return out
}

// markdownTable sets a table as a list, which needs no extension of Markdown:
// every row says what its figures are.
func markdownTable(b *strings.Builder, l labelled) {
	b.WriteString("  - " + l.label + "\n")
	for _, row := range l.rows[1:] {
		b.WriteString("    - " + MarkdownBlock(row[0]))
		next := ": "
		for c, s := range row[1:] {
			if s != "" {
				b.WriteString(next + MarkdownText(s+" "+l.rows[0][c+1]))
				next = ", "
			}
		}
		b.WriteString("\n")
	}
}

func markdownFields(b *strings.Builder, indent string, s shape) {
	parts := s.parts
	if markdownRecords(b, indent, s) {
		parts = nil
	}
	for _, f := range parts {
		b.WriteString(indent + "- " + MarkdownBlock(f.name) + ": " + MarkdownText(f.value.text))
		if f.value.limits != "" {
			b.WriteString(", " + f.value.limits)
		}
		b.WriteString("\n")
		markdownFields(b, indent+"  ", f.value)
	}
	if s.more > 0 {
		b.WriteString(indent + "- … " + count(s.more) + " more\n")
	}
}

func markdownParts(parts []part) string {
	var b strings.Builder
	for _, p := range parts {
		switch {
		case p.formula != nil && isSource(p.formula):
			b.WriteString(MarkdownText(plainParts([]part{p})))
		case p.formula != nil:
			bu := builder{numbers: p.numbers, digits: shownDigits}
			ours, n := leadingWords(bu.expr(p.formula).node)
			b.WriteString(ours + write(n, MarkdownMath))
		case p.users != "":
			b.WriteString(MarkdownText(p.users))
		default:
			b.WriteString(p.ours)
		}
	}
	return b.String()
}
