package render

import (
	"go/doc/comment"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/cell/inside"
	"ohmwright/kernel/note"
	"ohmwright/units"
)

// Inspection is what there is to say of a place of a cell, in a bundle for
// Jupyter: text/plain and text/html with TeX.
func Inspection(i *note.Inspection) map[string]string {
	if i.Doc != nil {
		return map[string]string{"text/plain": docText(i.Doc), "text/html": docHTML(i.Doc)}
	}
	var s statement
	code := ""
	switch {
	case i.Name != nil:
		s, code = aboutName(i.Name), i.Name.Code
	case i.Literal != nil:
		s = aboutLiteral(i.Literal)
	default:
		s = statement{value: shape{text: oneLine(i.Other.Text)}, description: oneLine(i.Other.What)}
	}
	list := []statement{s}
	text, html := textOf(list, Options{Width: bundleWidth}), htmlOf(list, TeX)
	if code != "" {
		text += "\n" + visible(code) + "\n"
		html += "<pre>" + escape(code) + "</pre>\n"
	}
	return map[string]string{"text/plain": text, "text/html": html}
}

// aboutName is the entry of a name with what it comes from and goes into.
func aboutName(n *note.NameInfo) statement {
	var s statement
	if n.Entry != nil {
		s = entry(n.Entry)
	} else {
		s = statement{name: n.Name, value: shape{text: oneLine(n.Type)}}
	}
	say := func(label string, p part) { s.lines = append(s.lines, labelled{label: label, parts: []part{p}}) }
	if n.Entry == nil && n.Comment != "" {
		s.description = oneLine(n.Comment)
	}
	if n.Trouble != "" {
		say("value", part{users: oneLine(n.Trouble)})
	}
	if len(n.Inputs) > 0 {
		var list []string
		for _, v := range n.Inputs {
			list = append(list, strings.TrimSpace(v.Name+" "+firm(v.Value)))
		}
		say("inputs", part{users: oneLineHard(strings.Join(list, ", "))})
	}
	if len(n.UsedBy) > 0 {
		var list []string
		for _, u := range n.UsedBy {
			text := u.Cell
			if len(u.Names) > 0 {
				text = strings.Join(u.Names, ", ") + " in " + u.Cell
			}
			list = append(list, text)
		}
		say("used by", part{users: oneLine(strings.Join(list, "; "))})
	}
	place := n.Cell
	if n.Entry != nil && n.Entry.Line > 0 {
		place += ", line " + count(n.Entry.Line)
	}
	say("cell", part{users: oneLine(place)})
	return s
}

// aboutLiteral is a literal with its value in SI and what its unit is.
func aboutLiteral(l *note.LiteralInfo) statement {
	s := statement{value: shape{text: oneLine(l.Text), plain: true}, description: l.Unit.Measures}
	say := func(label, text string) {
		s.lines = append(s.lines, labelled{label: label, parts: []part{{ours: text}}})
	}
	say("in SI", l.SI)
	tell := func(u units.About) {
		text := u.Definition
		if u.Prefix != "" {
			text = u.Prefix + ", " + text
		}
		if len(u.Spellings) > 0 {
			text += "; also written " + strings.Join(u.Spellings, ", ")
		}
		say("unit", text+" ["+u.Source+"]")
	}
	if l.Unit.SI != "" && l.Unit.SI != l.Unit.Definition {
		say("unit", l.Unit.SI)
	}
	if len(l.Unit.Parts) == 0 {
		tell(l.Unit)
	}
	for _, p := range l.Unit.Parts {
		tell(p)
	}
	return s
}

// docText is documentation as plain text, much as it stands in the source.
func docText(d *note.DocInfo) string {
	var b strings.Builder
	b.WriteString(d.Signature + "\n")
	if d.Value != "" {
		b.WriteString("\nnow " + d.Value + "\n")
	}
	if d.Text != "" {
		b.WriteString("\n" + d.Text + "\n")
	}
	list := func(title string, fields []note.FieldInfo) {
		if len(fields) == 0 {
			return
		}
		b.WriteString("\n" + title + "\n")
		width := 0
		for _, f := range fields {
			width = max(width, cells(f.Name))
		}
		for _, f := range fields {
			lines := wrap(fieldText(f), max(minWrap, bundleWidth-width-5))
			for i, line := range lines {
				name := f.Name
				if i > 0 {
					name = ""
				}
				b.WriteString("  " + pad(name, width) + gap + line + "\n")
			}
		}
	}
	list("arguments", d.Arguments)
	list("results", d.Results)
	list("fields", d.Fields)
	list("functions", d.Members)
	if d.See != "" {
		b.WriteString("\n" + d.See + "\n")
	}
	if d.Code != "" {
		b.WriteString("\n" + d.Code + "\n")
	}
	return visible(b.String())
}

// fieldText is what is said of a field; that it is a quantity goes without saying.
func fieldText(f note.FieldInfo) string {
	text := oneLine(f.Text)
	if f.Type != "" && f.Type != "Quantity" {
		text = strings.TrimSuffix(f.Type+", "+text, ", ")
	}
	return text
}

// docHTML is documentation as tables and paragraphs, with the formulas of a
// function drawn from its source in the place of those in its comment.
func docHTML(d *note.DocInfo) string {
	h := htmlWriter{as: TeX}
	h.put("<pre>", escape(d.Signature), "</pre>\n")
	if d.Value != "" {
		h.put("<p>now <b>", user(firm(oneLine(d.Value)), h.as), "</b></p>\n")
	}
	steps := d.Steps
	h.comment(d.Text, func() bool {
		if len(steps) == 0 {
			return false
		}
		h.steps(steps)
		steps = nil
		return true
	})
	if len(steps) > 0 {
		h.steps(steps)
	}
	h.fields("arguments", d.Arguments)
	h.fields("results", d.Results)
	h.fields("fields", d.Fields)
	h.fields("functions", d.Members)
	h.comment(d.See, func() bool { return false })
	if d.Code != "" {
		h.put("<pre>", escape(d.Code), "</pre>\n")
	}
	return h.b.String()
}

// comment sets a doc comment; formula is asked to stand in for the first
// block of code.
func (h *htmlWriter) comment(text string, formula func() bool) {
	var p comment.Parser
	for i, block := range p.Parse(text).Content {
		switch x := block.(type) {
		case *comment.Code:
			if i > 2 || !formula() {
				h.put("<pre>", escape(x.Text), "</pre>\n")
			}
		case *comment.Paragraph:
			h.put("<p>", user(commentText(x.Text), h.as), "</p>\n")
		case *comment.Heading:
			h.put("<p><b>", user(commentText(x.Text), h.as), "</b></p>\n")
		case *comment.List:
			h.put("<ul>")
			for _, item := range x.Items {
				h.put("<li>")
				for _, part := range item.Content {
					if q, ok := part.(*comment.Paragraph); ok {
						h.put(user(commentText(q.Text), h.as))
					}
				}
				h.put("</li>")
			}
			h.put("</ul>\n")
		}
	}
}

// commentText is the text of a paragraph, in one line.
func commentText(list []comment.Text) string {
	var b strings.Builder
	for _, t := range list {
		switch t := t.(type) {
		case comment.Plain:
			b.WriteString(string(t))
		case comment.Italic:
			b.WriteString(string(t))
		case *comment.Link:
			b.WriteString(commentText(t.Text))
		case *comment.DocLink:
			b.WriteString(commentText(t.Text))
		}
	}
	return oneLine(b.String())
}

// steps sets the formulas of a function, one a line.
func (h *htmlWriter) steps(steps []inside.Formula) {
	h.put(`<table class="ow-parts"><tbody>`)
	for _, s := range steps {
		var b builder
		equation := &row{[]node{nameNode(s.Name), &sign{"=", true}, b.expr(s.Formula).node}}
		h.put("<tr", calm, "><td", left, ">", htmlMath(equation, h.as), "</td><td", left, ">", h.condition(s), "</td></tr>\n")
	}
	h.put("</tbody></table>\n")
}

// condition words when a step is computed.
func (h *htmlWriter) condition(s inside.Formula) string {
	if s.When == nil {
		return ""
	}
	when, not := s.When, s.Else
	for when.Kind == cell.ExprUnary && when.Text == "!" {
		when, not = when.Args[0], !not
	}
	where, unless := "where ", "unless "
	if when.Kind == cell.ExprCall && when.Text == "given" {
		when, where, unless = when.Args[0], "with ", "without "
	}
	if not {
		where = unless
	}
	var b builder
	return where + htmlMath(b.expr(when).node, h.as)
}

// fields sets fields or functions with what is said of each.
func (h *htmlWriter) fields(title string, list []note.FieldInfo) {
	if len(list) == 0 {
		return
	}
	h.put("<p><i>", title, `</i></p>`, "\n", `<table class="ow-parts"><tbody>`)
	for _, f := range list {
		h.put("<tr", calm, "><td", left, ">", "<b>", escape(f.Name), "</b></td><td", left, ">", user(fieldText(f), h.as), "</td></tr>\n")
	}
	h.put("</tbody></table>\n")
}
