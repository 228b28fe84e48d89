package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// spreadText is the limits of a value, "4.81 … 5.18 V"; "" for an exact one.
func spreadText(s *note.Spread) string {
	if s == nil || s.Low.Same(s.High) {
		return ""
	}
	return limitsText(&s.Low, &s.High)
}

// searchLines says how limits were found that are no corners.
func searchLines(s *note.Spread) []labelled {
	if s == nil {
		return nil
	}
	var lines []labelled
	say := func(label, text string) { lines = append(lines, labelled{label, []part{{ours: text}}}) }
	switch s.Search {
	case note.Inside:
		say("limits", "low where "+s.LowCase+"; high where "+s.HighCase)
	case note.Sampled:
		say("limits", fmt.Sprintf("the farthest found: %d sources have too many corners to visit all", len(s.Sources)))
	}
	if s.Trouble != "" {
		say("limits", "the search ended early: "+s.Trouble)
	}
	return lines
}

// verdictLines is what stands behind a verdict: the worst case, how many
// boards pass, and what the inputs are known of.
func verdictLines(r *note.Requirement) []labelled {
	var lines []labelled
	say := func(label, text string) { lines = append(lines, labelled{label, []part{{ours: text}}}) }
	switch {
	case r.Worst != nil:
		text := "margin " + r.Worst.String() + " where " + r.WorstCase
		if r.Search == note.Sampled {
			text += "; the worst found, not all corners were visited"
		}
		say("worst", text)
	case r.FailsWhere != "":
		say("worst", "does not hold where "+r.FailsWhere)
	}
	if r.Trouble != "" {
		say("worst", "the search ended early: "+r.Trouble)
	}
	if r.Yield != nil {
		say("boards", yieldText(r.Yield))
	}
	if t := inputsText(r.Inputs); t != "" {
		say("inputs", t)
	}
	return lines
}

// yieldText is the share of boards that pass, never a bare 100 %.
func yieldText(y *note.Yield) string {
	text := ""
	switch y.Passed {
	case y.Boards:
		text = "at least " + percent(y.Low, false) + " pass"
	case 0:
		text = "at most " + percent(y.High, true) + " pass"
	default:
		text = percent(float64(y.Passed)/float64(y.Boards), false) + " pass, " + percent(y.Low, false) + " … " + percent(y.High, true)
	}
	text += fmt.Sprintf(" with 95 %% confidence (%d of %d drawn, parts %s", y.Passed, y.Boards, y.Assumed)
	if y.Where != "" {
		text += ", where " + y.Where
	}
	return text + ")"
}

// percent writes a share with as many decimals as keep it from 0 and 100 %,
// rounded to the careful side.
func percent(share float64, up bool) string {
	p := share * 100
	decimals := 1
	for far := min(p, 100-p); decimals < 4 && far > 0 && far < 2*math.Pow10(-decimals); {
		decimals++
	}
	scale := math.Pow10(decimals)
	if up {
		p = math.Ceil(p*scale) / scale
	} else {
		p = math.Floor(p*scale) / scale
	}
	return strconv.FormatFloat(p, 'f', decimals, 64) + " %"
}

// inputsText says what the inputs of a verdict are known of; "" where all have
// limits, or none has.
func inputsText(in note.Inputs) string {
	if in.Spread == 0 && in.Typical == 0 || in.Exact == 0 && in.Typical == 0 {
		return ""
	}
	var parts []string
	add := func(n int, text string) {
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+text)
		}
	}
	add(in.Spread, "with limits")
	add(in.Exact, "without spread")
	add(in.Typical, "typical only")
	return strings.Join(parts, ", ")
}

// spreading is what Spread(x) shows.
func spreading(s *note.Spreading) statement {
	out := statement{value: shape{text: s.Value.String(), plain: true}, limits: spreadText(s.Spread)}
	if s.Formula != nil {
		out.name = "Spread(" + Formula(s.Formula, Plain) + ")"
	}
	say := func(label, text string) { out.lines = append(out.lines, labelled{label, []part{{ours: text}}}) }
	if s.Spread == nil {
		say("limits", "an exact value: none of its inputs has spread")
		return out
	}
	say("low", s.Spread.Low.String()+" where "+s.Spread.LowCase)
	say("high", s.Spread.High.String()+" where "+s.Spread.HighCase)
	if s.Spread.Search == note.Sampled {
		out.lines = append(out.lines, searchLines(s.Spread)...)
	}
	if s.Trouble != "" {
		say("limits", "not all of it could be computed: "+s.Trouble)
	}
	if s.RSSLow != nil && s.RSSHigh != nil {
		say("rss", limitsText(s.RSSLow, s.RSSHigh)+", root of the sum of squares of the parts, drifts added, ranges as above")
	}
	if s.Spread.Std != nil {
		say("deviation", s.Spread.Std.String()+" standard, ranges at their usual value")
	}
	if len(s.Percentiles) > 0 {
		var parts []string
		for _, p := range s.Percentiles {
			parts = append(parts, strconv.FormatFloat(p.P, 'g', -1, 64)+" % below "+p.Value.String())
		}
		say("boards", strings.Join(parts, ", "))
		say("drawn", fmt.Sprintf("%d boards, parts %s", s.Boards, s.Assumed))
	}
	for _, h := range s.Shares {
		say("share", shareText(h))
	}
	return out
}

// shareText is one line of the ranking of sources.
func shareText(h note.Share) string {
	text := fmt.Sprintf("%s %s of the limits", h.Name, wholePercent(h.Extreme))
	switch h.Kind {
	case units.PartSource:
		text += ", " + wholePercent(h.Variance) + " of the variance"
	case units.RangeSource:
		text += " (a range)"
	case units.DriftSource:
		text += " (a drift)"
	}
	return text
}

func wholePercent(share float64) string {
	return strconv.FormatFloat(share*100, 'f', 0, 64) + " %"
}
