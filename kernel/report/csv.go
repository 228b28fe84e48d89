package report

import (
	"encoding/csv"
	"fmt"
	"strings"
)

// Lists are what CSV can write.
var Lists = []string{"parts", "inputs", "requirements"}

// CSV writes a list of the document as RFC 4180 has it, with a row of headings.
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
		rows = [][]string{{"identifier", "requirement", "needs", "verdict", "nominal margin", "worst margin", "worst case", "waived", "note", "cell"}}
		for _, q := range d.Requirements {
			rows = append(rows, []string{q.Requirement.ID, q.Text, q.Needs(), q.Verdict(), q.Nominally(), q.Worstly(), strings.TrimSpace(q.WorstAll), q.Waived, q.Note, q.Cell})
		}
	default:
		return "", fmt.Errorf("--what %s: there is no such list; write %s", what, strings.Join(Lists, ", "))
	}
	var b strings.Builder
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	if err := w.WriteAll(rows); err != nil {
		return "", err
	}
	return b.String(), nil
}
