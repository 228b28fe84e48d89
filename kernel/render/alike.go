package render

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// A list of like records, such as the months of a year, is a table: a row for
// each record, a column for each of its fields. Below the other it would take
// pages.

const (
	leastAlike = 3  // records, fewer stay one below the other
	widestCell = 24 // characters
)

// alike gives the names of the fields if the parts of a value are like records
// whose fields have one value each.
func (s shape) alike() (names []string, ok bool) {
	if len(s.parts) < leastAlike || !s.keyed && !strings.HasPrefix(s.parts[0].name, "[") {
		return nil, false
	}
	for i, record := range s.parts {
		fields := record.value.parts
		if len(fields) < 2 || record.value.more > 0 || record.value.keyed || strings.HasPrefix(fields[0].name, "[") {
			return nil, false
		}
		var here []string
		for _, f := range fields {
			if len(f.value.parts)+f.value.more > 0 || strings.Contains(f.value.text, "\n") || utf8.RuneCountInString(f.value.text) > widestCell {
				return nil, false
			}
			here = append(here, f.name)
		}
		if i > 0 && !slices.Equal(here, names) {
			return nil, false
		}
		names = here
	}
	return names, true
}

// records sets like records between margins; false where they are too wide
// even with the ends of their limits one below the other.
func (t *table) records(indent string, s shape) bool {
	names, ok := s.alike()
	if !ok {
		return false
	}
	for _, narrow := range []bool{false, true} {
		rows := [][]string{append([]string{""}, names...)}
		for _, record := range s.parts {
			rows = append(rows, recordRows(record, narrow)...)
		}
		rows = rightAligned(rows, " ")
		between := gap
		if narrow {
			between = "  "
		}
		if t.width > 0 && cells(indent+strings.Join(rows[0], between)) > t.width {
			continue
		}
		for _, row := range rows {
			t.put(indent + strings.Join(row, between))
		}
		t.more(indent, s)
		return true
	}
	return false
}

// recordRows is a record with its limits in the row below, or in two.
func recordRows(record field, narrow bool) (rows [][]string) {
	columns := [][]string{{oneLine(record.name)}}
	height := 1
	for _, f := range record.value.parts {
		column := []string{f.value.text}
		if low, high, ok := strings.Cut(f.value.limits, " … "); ok && narrow {
			column = append(column, low+" …", high)
		} else if ok {
			column = append(column, f.value.limits)
		}
		columns = append(columns, column)
		height = max(height, len(column))
	}
	for i := range height {
		var row []string
		for _, column := range columns {
			row = append(row, lineAt(column, i))
		}
		rows = append(rows, row)
	}
	return rows
}

// records sets like records as a table, limits below the value.
func (h *htmlWriter) records(s shape) bool {
	names, ok := s.alike()
	if !ok {
		return false
	}
	h.put("<tr", calm, "><td", left, "></td>")
	for _, name := range names {
		h.put("<td", left, "><i>", user(oneLine(name), h.as), "</i></td>")
	}
	h.put("</tr>")
	for _, record := range s.parts {
		h.put("<tr", calm, "><td", left, ">", user(oneLine(record.name), h.as), "</td>")
		for _, f := range record.value.parts {
			text := user(f.value.text, h.as)
			if f.value.plain {
				text = escape(firm(f.value.text))
			}
			if low, high, ok := strings.Cut(f.value.limits, " … "); ok {
				text += `<br/><span class="ow-spread">` + escape(firm(low)+hard+"… "+firm(high)) + "</span>"
			}
			h.put("<td", left, ">", text, "</td>")
		}
		h.put("</tr>")
	}
	return true
}

// markdownRecords sets like records one a line, which says what its figures are.
func markdownRecords(b *strings.Builder, indent string, s shape) bool {
	if _, ok := s.alike(); !ok {
		return false
	}
	for _, record := range s.parts {
		b.WriteString(indent + "- " + MarkdownBlock(record.name) + ": ")
		for c, f := range record.value.parts {
			if c > 0 {
				b.WriteString(", ")
			}
			b.WriteString(MarkdownText(f.name + " " + f.value.text))
			if f.value.limits != "" {
				b.WriteString(" (" + f.value.limits + ")")
			}
		}
		b.WriteString("\n")
	}
	return true
}

// latexRecords sets like records as an array.
func latexRecords(s shape) (string, bool) {
	names, ok := s.alike()
	if !ok {
		return "", false
	}
	rows := [][]string{append([]string{""}, names...)}
	for _, record := range s.parts {
		row := []string{record.name}
		for _, f := range record.value.parts {
			text := f.value.text
			if f.value.limits != "" {
				text += " (" + f.value.limits + ")"
			}
			row = append(row, text)
		}
		rows = append(rows, row)
	}
	return latexTable(rows), true
}
