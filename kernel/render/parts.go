package render

import (
	"strconv"
	"strings"

	"ohmwright/kernel/note"
)

// partStatement shows a part of the schematic: what it is, and how it was chosen.
func partStatement(p *note.Part) statement {
	s := statement{name: p.Reference, spoken: true, value: shape{text: p.Text(), plain: true}}
	if p.Words != "" {
		s.value = shape{text: oneLine(p.Words)}
	}
	if p.Low != nil {
		s.limits = Limits(*p.Low, *p.High)
	}
	var is []string
	if p.Name != "" {
		is = append(is, p.Name)
	}
	reason := ""
	if e := p.Entry; e != nil {
		s.description, s.source, reason = oneLine(e.Description), oneLine(e.Origin()), oneLine(e.Reason)
		if c := e.Choice; c != nil && e.Name == p.Name {
			is = append(is, c.Series+toleranceText(p), "ideal "+c.Ideal.String(), "chosen "+c.Chosen.AsBought()+" ("+Deviation(c.Deviation)+")"+keptText(c))
		} else if t := toleranceText(p); t != "" {
			is = append(is, strings.TrimSpace(t))
		}
	}
	if len(is) > 0 {
		s.lines = append(s.lines, users("is", strings.Join(is, ", ")))
	}
	if reason != "" {
		s.lines = append(s.lines, users("because", reason))
	}
	s.lines = append(s.lines, twiceLines(p)...)
	return s
}

// twiceLines says that what stands once stands elsewhere, too.
func twiceLines(it note.Item) []labelled {
	if t := Twice(it); t != "" {
		return []labelled{users("FAILS", t)}
	}
	return nil
}

// Twice says in one line that what an item has stands elsewhere, too; "" if it
// does not.
func Twice(it note.Item) string {
	what, where := note.Twice(it)
	if what == "" {
		return ""
	}
	return oneLine(what + " stands twice: in " + where + ", too")
}

// toleranceText is " ± 1 %", or nothing where the limits do not lie alike.
func toleranceText(p *note.Part) string {
	share, ok := p.Tolerance()
	if !ok {
		return ""
	}
	return " ± " + ShareText(share)
}

// ShareText writes a share in percent.
func ShareText(share float64) string {
	return strconv.FormatFloat(share*100, 'g', 3, 64) + " %"
}

// keptText says that a choice is kept, and what it would be.
func keptText(c *note.Choice) string {
	switch {
	case !c.Kept:
		return ""
	case c.Would != nil:
		return ", kept from the design as written, would be " + c.Would.AsBought()
	}
	return ", kept from the design as written"
}

// ratedText is what a rating has to hold, in words.
func ratedText(r *note.Requirement) string {
	text := r.Text + ": at most "
	if r.Rating.Policy < 1 {
		text += ShareText(r.Rating.Policy) + " of "
	}
	return text + "its rating of " + r.Rating.Limit.String()
}

// ratedLines are the stress and its share of the rating.
func ratedLines(r *note.Requirement) []labelled {
	var lines []labelled
	if f := r.Rating.Stress; f != nil {
		lines = append(lines, labelled{label: "stress", parts: []part{{formula: f}}})
	}
	share, stress := r.Share()
	text := stress.String() + ", " + ShareText(share) + " of the rating"
	if r.Rating.Policy < 1 {
		text += ", policy " + ShareText(r.Rating.Policy)
	}
	if r.WorstCase != "" {
		text += ", where " + r.WorstCase
	}
	return append(lines, users("largest", text))
}

// MustHold is the words of a requirement for a table.
func MustHold(r *note.Requirement) string {
	if r.Rating != nil {
		return ratedText(r)
	}
	return oneLine(r.Text)
}

// aboutLines are the comments around a requirement.
func aboutLines(r *note.Requirement) []labelled {
	var lines []labelled
	if r.Waived != "" {
		lines = append(lines, users("waiver", r.Waived))
	}
	if text := oneLine(r.Description); text != "" || r.Source != "" {
		if r.Source != "" {
			text = strings.TrimSpace(text + " [" + oneLine(r.Source) + "]")
		}
		lines = append(lines, users("about", text))
	}
	if t := oneLine(r.Reason); t != "" {
		lines = append(lines, users("because", t))
	}
	return lines
}

func policyStatement(p *note.Policy) statement {
	text := "derating: " + p.What
	if p.Letters != "" {
		text += " of " + p.Letters
	}
	text += " at most " + ShareText(p.Share) + " of the rating, for " + count(p.Ratings) + " ratings"
	switch p.Ratings {
	case 0:
		text = strings.TrimSuffix(text, "for 0 ratings") + "but no part has such a rating"
	case 1:
		text = strings.TrimSuffix(text, "s")
	}
	return statement{kind: noticeStatement, description: oneLine(text)}
}

func waiverStatement(w *note.Waiver) statement {
	text := "waiver of " + w.ID + ": " + w.Reason
	if w.Trouble != "" {
		text += " (" + w.Trouble + ")"
	}
	return statement{kind: noticeStatement, description: oneLine(text)}
}

// caseStatement shows an operating case: its inputs, and what comes out
// otherwise than as designed.
func caseStatement(o *note.Operating) statement {
	var inputs []string
	for _, i := range o.Inputs {
		inputs = append(inputs, i.Name+" = "+i.Text())
	}
	s := statement{kind: requirementStatement, word: verdict(o.Holds), holds: o.Holds, description: "operating case " + oneLine(o.Name) + ": " + strings.Join(inputs, ", ")}
	s.lines = append(s.lines, twiceLines(o)...)
	if o.Trouble != "" {
		s.lines = append(s.lines, users("error", o.Trouble))
	}
	if len(o.Judged) > 0 {
		rows := [][]string{{"requirement", "margin", "worst"}}
		for _, j := range o.Judged {
			margin, worst := "", ""
			if j.Margin != nil {
				margin = j.Margin.String()
			}
			if j.Worst != nil {
				worst = j.Worst.String()
			}
			text := oneLine(j.Text)
			switch {
			case j.Waived != "":
				text = "waived: " + text
			case !j.Holds:
				text = "FAILS: " + text
			}
			rows = append(rows, []string{text, margin, worst})
		}
		s.lines = append(s.lines, labelled{label: "in it", rows: rows})
	} else if o.Trouble == "" {
		s.lines = append(s.lines, ours("in it", "every requirement as designed"))
	}
	for _, text := range o.Anyway {
		s.lines = append(s.lines, users("anyway", "FAILS: "+oneLine(text)))
	}
	if len(o.Table) > 0 {
		s.lines = append(s.lines, labelled{label: "all", rows: shortRows(o.Table)})
	}
	for _, w := range o.Would {
		s.lines = append(s.lines, users("keeps", w.Name+" "+w.Kept.AsBought()+", would be "+w.Then.AsBought()))
	}
	return s
}

// shortRows are rows of a table with the words at their left cut.
func shortRows(table [][]string) [][]string {
	rows := make([][]string, len(table))
	for i, row := range table {
		for _, s := range row {
			rows[i] = append(rows[i], oneLine(s))
		}
		rows[i][0] = cutRight(rows[i][0], 40)
	}
	return rows
}

// fit words how a reading lies.
func fit(f note.Fit) string {
	switch f {
	case note.FitInside:
		return "inside"
	case note.FitPerhaps:
		return "may be inside"
	}
	return "OUTSIDE"
}

func measuredStatement(m *note.Measurement) statement {
	reading := m.Reading.String()
	if m.From.SI() < m.To.SI() {
		reading += " (" + Limits(m.From, m.To) + ")"
	}
	computed := "computed " + m.Value.String()
	if m.Low.SI() < m.High.SI() {
		computed += " (" + Limits(m.Low, m.High) + ")"
	}
	name := m.Name
	if name == "" && m.Formula != nil {
		name = Formula(m.Formula, Plain)
	}
	s := statement{kind: requirementStatement, word: fit(m.Verdict), holds: m.Verdict != note.FitOutside, description: oneLine(name) + " measured " + reading + ", " + computed}
	s.lines = append(s.lines, users("bench", m.How))
	if m.Search == note.Sampled {
		s.lines = append(s.lines, ours("limits", "the farthest found: not all corners were visited"))
	}
	if m.Trouble != "" {
		s.lines = append(s.lines, users("limits", "the search ended early: "+m.Trouble))
	}
	return s
}

// judgedWord is the first word of a requirement.
func judgedWord(r *note.Requirement) string {
	if r.Waived != "" {
		return "waived"
	}
	return verdict(r.Holds)
}

// Verdict is what is judged of an item, in one line; "" for other items. That
// something stands twice is told by Twice.
func Verdict(it note.Item) string {
	switch x := it.(type) {
	case *note.Requirement:
		if x.Rating != nil {
			share, stress := x.Share()
			return ratedText(x) + ", and it is " + stress.String() + ", " + ShareText(share)
		}
		return oneLine(x.Text)
	case *note.Operating, *note.Measurement:
		return statements([]note.Item{it})[0].description
	}
	return ""
}
