package render

import (
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// TouchesText sets what depends on a name: each value with the names through
// which it does and how far it moves by a step of the name, and the
// requirements that rest on it.
func TouchesText(t *note.Touches, o Options) string {
	var b strings.Builder
	line := t.Entry.Name + gap + oneLine(entryValue(t.Entry).text)
	if l := EntryLimits(t.Entry); l != "" {
		line += gap + l
	}
	if d := oneLine(t.Entry.Description); d != "" {
		line += gap + d
	}
	if t.Reference != "" {
		line += gap + "part " + t.Reference
	}
	b.WriteString(spaced(line) + gap + "(" + oneLine(t.Cell) + ")\n")
	if t.Trouble != "" {
		b.WriteString("  " + oneLine(t.Trouble) + "\n")
	}
	if len(t.Values)+len(t.Requirements) == 0 {
		b.WriteString("  nothing depends on it\n")
		return b.String()
	}
	stay := 0
	step := "by " + t.Step + " more"
	rows := [][]string{{"value", "", step, "through", "cell"}}
	for _, v := range t.Values {
		through := strings.Join(v.Through, ", ")
		if len(v.Effects) == 0 {
			rows = append(rows, []string{v.Entry.Name, cutCells(oneLine(shapeOf(&v.Entry.Value, 0).text)), "", through, v.Cell})
		}
		for _, e := range v.Effects {
			if t.Step != "" && e.Known && e.Moves.SI() == 0 {
				stay++
				continue
			}
			rows = append(rows, []string{e.Name, e.Value.String(), effectText(e, t.Step), through, v.Cell})
		}
	}
	if len(t.Values) > 0 {
		b.WriteString("\n")
	}
	if t.Step == "" {
		for i := range rows {
			rows[i][2] = ""
		}
	}
	if len(rows) > 1 {
		columns(&b, rows, -1, o)
	}
	if stay > 0 {
		b.WriteString("and " + count(stay) + " that depend on it and stay\n")
	}
	if len(t.Requirements) > 0 {
		needs := [][]string{}
		for _, q := range t.Requirements {
			margin, moves := marginText("margin ", q.Margin, q.Moves)
			worst, worstMoves := marginText("worst ", q.Worst, q.WorstMoves)
			needs = append(needs, []string{judgedWord(q.Requirement), oneLine(q.Text), margin, moves, worst, worstMoves, q.Cell})
		}
		b.WriteString("\n")
		columns(&b, needs, 1, o)
	}
	return b.String()
}

// marginText is a margin, and how far it moves.
func marginText(word string, margin, moves *units.Quantity) (text, by string) {
	if margin != nil {
		text = word + margin.String()
	}
	if moves != nil {
		by = signedText(*moves)
	}
	return text, by
}

func effectText(e note.Effect, step string) string {
	switch {
	case step == "" || !e.Known:
		return ""
	case e.Percent:
		return signedText(units.In(e.Moves, "%"))
	}
	return signedText(e.Moves)
}

// signedText writes a difference with its sign, in few digits.
func signedText(q units.Quantity) string {
	if q.SI() == 0 {
		return "stays"
	}
	return Signed(q.Text(3))
}
