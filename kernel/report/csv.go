package report

import (
	"encoding/csv"
	"fmt"
	"regexp"
	"strings"

	"ohmwright/kernel/render"
)

// Lists are what CSV can write.
var Lists = []string{"parts", "inputs", "requirements", "cases"}

// CSV writes a list of the document as RFC 4180 has it, with a row of headings.
//
// Spreadsheets compute a field that begins with = + - or @, whoever wrote it.
// Such a field gets an apostrophe at its start, by which they take it for text;
// a bare number with its unit, +0.3 % or -3.3 V, stays as it is. Minus signs of
// ours are U+2212, which no spreadsheet computes.
func (d *Document) CSV(what string) (string, error) {
	var rows [][]string
	switch what {
	case "parts":
		rows = [][]string{{"reference", "name", "value", "limits", "series", "rule", "ideal", "deviation", "stress", "description", "reason", "note", "cell"}}
		for _, p := range d.Parts {
			rows = append(rows, []string{p.Reference, p.Name, p.Value, p.Limits, p.Series, p.Rule, p.Ideal, p.Deviation, p.Stress, p.About, p.Reason, p.Note, p.Cell})
		}
	case "inputs":
		rows = [][]string{{"name", "value", "limits", "description", "source", "reason", "note", "cell"}}
		for _, in := range d.Inputs {
			rows = append(rows, []string{in.Name, in.Value, in.Limits, in.About, in.Source, in.Reason, in.Note, in.Cell})
		}
	case "requirements":
		rows = [][]string{{"identifier", "requirement", "needs", "verdict", "nominal margin", "worst margin", "worst case", "waived", "description", "source", "reason", "note", "cell"}}
		for _, q := range d.Requirements {
			rows = append(rows, []string{q.Requirement.ID, q.Unnumbered(), q.Needs(), q.Verdict(), q.Nominally(), q.Worstly(), strings.TrimSpace(q.WorstAll), q.Waived, q.Description, q.Source, q.Reason, q.Note, q.Cell})
		}
	case "cases":
		head := []string{"identifier", "requirement", "as designed"}
		rows = [][]string{append(append(head, d.CaseNames...), "note", "cell")}
		for _, r := range d.CaseRows {
			row := []string{r.Requirement.Requirement.ID, r.Unnumbered()}
			for _, c := range r.In {
				row = append(row, c.Text)
			}
			rows = append(rows, append(row, r.Note, r.Cell))
		}
	default:
		return "", fmt.Errorf("--what %s: there is no such list; write %s", what, strings.Join(Lists, ", "))
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	for _, row := range rows {
		for i, s := range row {
			row[i] = plainField(s)
		}
	}
	if err := w.WriteAll(rows); err != nil {
		return "", err
	}
	return b.String(), nil
}

// computed is what a spreadsheet may compute, also with the wide signs of East
// Asian keyboards; numeric is what of that is a number with a unit.
var (
	computed = regexp.MustCompile(`^[\s\p{Cc}\p{Cf}]*[=+\-@＝＋－＠]`)
	numeric  = regexp.MustCompile(`^[+-]\d+(\.\d+)? ?[\pL%°·/√]*$`)
)

func plainField(s string) string {
	s = render.Visible(strings.ReplaceAll(s, "\r", ""))
	if computed.MatchString(s) && !numeric.MatchString(s) {
		return "'" + s
	}
	return s
}
