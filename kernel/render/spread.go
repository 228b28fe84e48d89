package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// ours and users are labelled lines of words. What names a source or a case
// holds text of the user's.
func ours(label, text string) labelled { return labelled{label: label, parts: []part{{ours: text}}} }
func users(label, text string) labelled {
	return labelled{label: label, parts: []part{{users: oneLine(text)}}}
}

// searchLines says how limits were found that are no corners.
func searchLines(s *note.Spread) []labelled {
	if s == nil {
		return nil
	}
	var lines []labelled
	switch s.Search {
	case note.Inside:
		lines = append(lines, users("limits", "low where "+s.LowCase+"; high where "+s.HighCase))
	case note.Sampled:
		lines = append(lines, ours("limits", sampledText(s)))
	}
	if s.Trouble != "" {
		lines = append(lines, users("limits", "the search ended early: "+s.Trouble))
	}
	return lines
}

func sampledText(s *note.Spread) string {
	return fmt.Sprintf("the farthest found: %d sources have too many corners to visit all", len(s.Sources))
}

// verdictLines is what stands behind a verdict: the worst case, how many
// boards pass, and what the inputs are known of.
func verdictLines(r *note.Requirement) []labelled {
	var lines []labelled
	switch {
	case r.Rating != nil: // its largest stress says it
	case r.Worst != nil:
		text := "margin " + r.Worst.String() + " where " + r.WorstCase
		if r.Search == note.Sampled {
			text += "; the worst found, not all corners were visited"
		}
		lines = append(lines, users("worst", text))
	case r.FailsWhere != "":
		lines = append(lines, users("worst", "does not hold where "+r.FailsWhere))
	}
	if r.Trouble != "" {
		lines = append(lines, users("worst", "the search ended early: "+r.Trouble))
	}
	if r.Yield != nil {
		lines = append(lines, users("boards", yieldText(r.Yield)))
	}
	if t := inputsText(r.Inputs); t != "" {
		lines = append(lines, ours("inputs", t))
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
	text += fmt.Sprintf(" with 95 %% confidence (%d of %d drawn, %s", y.Passed, y.Boards, assumedText(y.Assumed))
	if y.Where != "" {
		text += ", where " + y.Where
	}
	return text + ")"
}

// percent writes a share with as many decimals as show two figures of how far
// it is from 0 and 100 %, rounded to the careful side.
func percent(share float64, up bool) string {
	p := share * 100
	decimals := 1
	for far := min(p, 100-p); decimals < 8 && far > 0 && far < math.Pow10(1-decimals)*(1-1e-9); {
		decimals++
	}
	scale := math.Pow10(decimals)
	// Not to the careful side of what is but the last bit of a product.
	if up {
		p = max(0, math.Ceil(p*scale-1e-6)/scale)
	} else {
		p = math.Floor(p*scale+1e-6) / scale
	}
	return strconv.FormatFloat(p, 'f', decimals, 64) + " %"
}

// assumedText says how parts were taken to be distributed.
func assumedText(assumed string) string {
	shapes := strings.Split(assumed, "; ")
	if len(shapes) == 1 {
		return "parts " + assumed
	}
	for i, s := range shapes {
		shapes[i] = "some " + strings.Replace(s, ",", " with", 1)
	}
	last := len(shapes) - 1
	return "parts " + strings.Join(shapes[:last], ", ") + " and " + shapes[last]
}

// inputsText says what the inputs of a verdict are known of; "" where all have
// limits, or there are none.
func inputsText(in note.Inputs) string {
	var parts []string
	add := func(n int, text string) {
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+text)
		}
	}
	add(in.Spread, "with limits")
	add(in.Exact, "without spread")
	add(in.Typical, "typical only")
	if in.Exact+in.Typical == 0 {
		return ""
	}
	return strings.Join(parts, ", ")
}

// spreading is what Spread(x) shows.
func spreading(s *note.Spreading) statement {
	out := statement{value: shape{text: s.Value.String(), plain: true}, limits: spreadText(s.Spread)}
	if s.Formula != nil {
		out.name, out.spoken = "Spread("+spreadName(s)+")", true
	}
	add := func(l labelled) { out.lines = append(out.lines, l) }
	if s.Spread == nil {
		add(ours("limits", "an exact value: none of its inputs has spread"))
		return out
	}
	add(users("low", s.Spread.Low.String()+" where "+s.Spread.LowCase))
	add(users("high", s.Spread.High.String()+" where "+s.Spread.HighCase))
	if s.Spread.Search == note.Sampled {
		add(ours("limits", sampledText(s.Spread)))
	}
	for _, trouble := range []string{s.Spread.Trouble, s.Trouble} {
		if trouble != "" {
			add(users("limits", "not all of it could be computed: "+trouble))
		}
	}
	ranges, drifts := others(s)
	if s.RSSLow != nil && s.RSSHigh != nil {
		add(ours("rss", Limits(*s.RSSLow, *s.RSSHigh)+", root of the sum of squares, parts independent"+
			given(drifts, ", drifts added straight")+given(ranges, ", ranges at their worst")))
	}
	if s.Spread.Std != nil {
		add(ours("sigma", s.Spread.Std.String()+", standard deviation with "+assumedText(s.Assumed)+given(ranges, ", ranges at their usual value")+given(drifts, ", no drift")))
	}
	if len(s.Percentiles) > 0 {
		add(ours("boards", percentilesText(s.Percentiles)+fmt.Sprintf("; %d drawn likewise", s.Boards)))
	}
	switch {
	case len(s.Shares) == 1:
		add(users("source", sourceName(s.Shares[0])+" alone"))
	case len(s.Shares) > 1:
		add(labelled{label: "sources", rows: ranking(s)})
	}
	return out
}

// given is text where something holds.
func given(holds bool, text string) string {
	if holds {
		return text
	}
	return ""
}

// others reports whether ranges and drifts are among the sources.
func others(s *note.Spreading) (ranges, drifts bool) {
	for _, h := range s.Shares {
		ranges = ranges || h.Kind == units.RangeSource
		drifts = drifts || h.Kind == units.DriftSource
	}
	return ranges, drifts
}

// percentilesText writes percentiles from the middle outwards, two that lie
// alike on either side together: 90 % in 4.9 … 5.08 V.
func percentilesText(ps []note.Percentile) string {
	var texts []string
	number := func(p float64) string { return strconv.FormatFloat(p, 'g', 6, 64) + " %" }
	i, j := 0, len(ps)-1
	for ; i < j && math.Abs(ps[i].P+ps[j].P-100) < 1e-9; i, j = i+1, j-1 {
		texts = append([]string{number(ps[j].P-ps[i].P) + " in " + Limits(ps[i].Value, ps[j].Value)}, texts...)
	}
	for k := j; k >= i; k-- {
		text := number(ps[k].P)
		if ps[k].P == 50 {
			text = "half"
		}
		texts = append([]string{text + " below " + ps[k].Value.String()}, texts...)
	}
	return strings.Join(texts, ", ")
}

// rankedSources is how many sources a ranking names.
const rankedSources = 8

// ranking is the table of sources: the share of each in the limits, and in
// the variance where chance moves it.
func ranking(s *note.Spreading) [][]string {
	chance := false
	for _, h := range s.Shares {
		chance = chance || h.Kind == units.PartSource
	}
	head := []string{"source", "of the limits"}
	if chance {
		assumed := assumedText(s.Assumed)
		if strings.Contains(s.Assumed, ";") {
			assumed = "drawn likewise" // the lines above say how
		}
		head = append(head, "of the variance, "+assumed)
	}
	rows := [][]string{head}
	shown := s.Shares
	if len(shown) > rankedSources+1 {
		shown = shown[:rankedSources]
	}
	for _, h := range shown {
		row := []string{sourceName(h), sharePercent(h.Extreme)}
		if chance {
			v := "none"
			if h.Kind == units.PartSource {
				v = sharePercent(h.Variance)
			}
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	if rest := s.Shares[len(shown):]; len(rest) > 0 {
		var extreme, variance float64
		for _, h := range rest {
			extreme += h.Extreme
			variance += h.Variance
		}
		row := []string{count(len(rest)) + " more", sharePercent(extreme)}
		if chance {
			row = append(row, sharePercent(variance))
		}
		rows = append(rows, row)
	}
	return rows
}

// sourceName tells a range from a part; a drift says so itself.
func sourceName(h note.Share) string {
	if h.Kind == units.RangeSource {
		return oneLine(h.Name) + " (range)"
	}
	return oneLine(h.Name)
}

// sharePercent writes a share in whole percent. What has something is not
// written as nothing, nor what lacks something as everything.
func sharePercent(share float64) string {
	p := math.Round(share * 100)
	switch {
	case share <= 0:
		return "none"
	case p < 1:
		return "under 1 %"
	case p > 99 && share < 1-1e-9:
		return "over 99 %"
	}
	return strconv.FormatFloat(p, 'f', 0, 64) + " %"
}
