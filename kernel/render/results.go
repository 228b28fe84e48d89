package render

import (
	"strings"

	"ohmwright/kernel/cell/exec"
	"ohmwright/kernel/note"
)

// Table is what `run` prints of a note: every result with the cell that it
// comes from, then the requirements with their margins, then the texts.
func Table(o Options, results ...*note.Result) string {
	var rows, needs, parts, keeps [][]string
	var texts []note.Item
	for _, r := range results {
		for _, it := range r.Items {
			if _, part := it.(*note.Part); !part { // which says so in its row
				if t := Twice(it); t != "" {
					needs = append(needs, []string{"FAILS", t, "", r.Label})
				}
			}
			switch it := it.(type) {
			case *note.Entry:
				if it.Quiet || it.Form == note.FormMade && it.Value.Kind == exec.KindOther {
					continue // functions and the like have no value to list
				}
				rows = append(rows, entryRows(it, r.Label)...)
				if c := it.Choice; c != nil && c.Would != nil {
					keeps = append(keeps, []string{"keeps", it.Name + " " + c.Chosen.AsBought() + ", would be " + c.Would.AsBought(), r.Label})
				}
			case *note.Shown:
				if f := Formula(it.Formula, Plain); it.Formula != nil && len(it.Value.Items) == 0 {
					rows = append(rows, []string{cutCells(f), cutCells(oneLine(shapeOf(&it.Value, 0).text)), spreadText(it.Spread), r.Label})
				}
			case *note.Requirement:
				margin := ""
				if it.Margin != nil {
					margin = "margin " + it.Margin.String()
				}
				if it.Worst != nil {
					if margin != "" {
						margin += ", "
					}
					margin += "worst " + it.Worst.String()
				}
				needs = append(needs, []string{judgedWord(it), MustHold(it), margin, r.Label})
			case *note.Part:
				value := oneLine(it.Text()) + toleranceText(it)
				about := it.Name
				if c := it.Entry; c != nil && c.Choice != nil && c.Choice.Would != nil && c.Name == it.Name {
					about += ", would be " + c.Choice.Would.AsBought()
				}
				if it.Twice != "" {
					about = "FAILS: stands twice"
				}
				parts = append(parts, []string{it.Reference, value, about, r.Label})
			case *note.Measurement:
				s := measuredStatement(it)
				needs = append(needs, []string{s.word, s.description, "", r.Label})
			case *note.Prose:
				texts = append(texts, it)
			case *note.Operating:
				needs = append(needs, []string{verdict(it.Holds), caseStatement(it).description, "", r.Label})
			}
		}
	}
	var b strings.Builder
	if len(rows) > 0 {
		columns(&b, append([][]string{{"name", "value", "limits", "cell"}}, rows...), -1, o)
	}
	add := func(list [][]string, flex int) {
		if len(list) == 0 {
			return
		}
		if b.Len() > 0 {
			b.WriteString("\n")
		}
		columns(&b, list, flex, o)
	}
	add(parts, 2)
	add(keeps, 1)
	add(needs, 1)
	if table := note.CaseTable(results); len(table) > 1 {
		add(shortRows(table), -1)
	}
	for _, it := range texts {
		if b.Len() > 0 {
			b.WriteString("\n")
		}
		b.WriteString(Text([]note.Item{it}, o))
	}
	return b.String()
}

// entryRows is one row, or one for each field of a record.
func entryRows(e *note.Entry, label string) [][]string {
	v := entryValue(e)
	if len(v.parts) == 0 {
		return [][]string{{e.Name, cutCells(oneLine(v.text)), EntryLimits(e), label}}
	}
	return partRows(nil, e.Name, v, label)
}

// partRows adds a row for each part of a value, down to what has no parts.
func partRows(rows [][]string, name string, v shape, label string) [][]string {
	if len(v.parts) == 0 {
		return append(rows, []string{oneLine(name), cutCells(oneLine(v.text)), v.limits, label})
	}
	for _, f := range v.parts {
		sub := name + "." + f.name
		if strings.HasPrefix(f.name, "[") {
			sub = name + f.name
		} else if v.keyed {
			sub = name + "[" + f.name + "]"
		}
		rows = partRows(rows, sub, f.value, label)
	}
	if v.more > 0 {
		rows = append(rows, []string{oneLine(name), "… " + count(v.more) + " more", "", label})
	}
	return rows
}

// columns sets rows in aligned columns, dropping those that are empty
// throughout. Column flex is wrapped if the rows are wider than o.Width.
func columns(b *strings.Builder, rows [][]string, flex int, o Options) {
	width := make([]int, len(rows[0]))
	used := make([]bool, len(width))
	for i, row := range rows {
		for c, s := range row {
			if s == "" {
				continue
			}
			used[c] = used[c] || i > 0 || flex >= 0
			width[c] = max(width[c], cells(s))
		}
	}
	if flex >= 0 && o.Width > 0 {
		others := 0
		for c, w := range width {
			if c != flex && used[c] {
				others += w + len(gap)
			}
		}
		width[flex] = min(width[flex], max(minWrap, o.Width-others))
	}
	for _, row := range rows {
		var line strings.Builder
		var further []string
		indent := 0
		for c, s := range row {
			if !used[c] {
				continue
			}
			if c == flex && o.Width > 0 {
				lines := wrap(s, width[c])
				s, further = lines[0], lines[1:]
				indent = cells(line.String())
			}
			line.WriteString(pad(s, width[c]) + gap)
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
		for _, s := range further {
			b.WriteString(strings.Repeat(" ", indent) + s + "\n")
		}
	}
}

// cutCells cuts a text or list that would push the table apart.
func cutCells(s string) string { return cutRight(s, 32) }
