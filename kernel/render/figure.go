package render

import (
	"fmt"
	"strings"

	"ohmwright/kernel/cell"
	"ohmwright/kernel/note"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

// plotted is a figure in words: what stands above its picture, and all that
// there is of it where no picture can be.
func plotted(p *note.Plotted) statement {
	out := statement{}
	switch f := p.Formula; {
	case f == nil:
	case f.Kind == cell.ExprName:
		out.name = f.Text
	default:
		out.name, out.spoken = cutRight(oneLine(Formula(f, Plain)), 60), true
	}
	if p.Tree != nil {
		out.value, out.lines = shape{text: treeName(p.Tree)}, treeLines(p.Tree)
		return out
	}
	out.value = shape{text: figureName(p.Figure)}
	for _, s := range p.Figure.Series {
		out.lines = append(out.lines, users("curve", seriesText(p.Figure, s)))
	}
	for _, m := range p.Figure.Marks {
		out.lines = append(out.lines, users("limit", markText(p.Figure, m)))
	}
	return out
}

// figureName says what a figure shows.
func figureName(f plot.Figure) string {
	x := axisName(f.XName, f.Series[0].X[0])
	if f.Title != "" {
		return oneLine(f.Title)
	}
	if len(f.Series) > 1 {
		return fmt.Sprintf("%d curves over %s", len(f.Series), x)
	}
	y := f.YName
	if y == "" {
		y = f.Series[0].Name
	}
	return axisName(y, f.Series[0].Y[0]) + " over " + x
}

// axisName is what an axis shows; without a name of its own the quantity.
func axisName(name string, like units.Quantity) string {
	if name != "" {
		return oneLine(name)
	}
	if about, ok := aboutUnit(like); ok && about.Measures != "" {
		return about.Measures
	}
	return "number"
}

func aboutUnit(q units.Quantity) (units.About, bool) {
	_, unit := q.Parts(0)
	_, about, ok := units.AboutLiteral("1" + unit)
	return about, ok && unit != ""
}

// seriesText is the essential of a curve.
func seriesText(f plot.Figure, s plot.Series) string {
	low, high := 0, 0
	for i, y := range s.Y {
		if y.SI() < s.Y[low].SI() {
			low = i
		}
		if y.SI() > s.Y[high].SI() {
			high = i
		}
	}
	text := ""
	if len(f.Series) > 1 {
		text = oneLine(s.Name) + ": "
	}
	if s.Y[low].SI() == s.Y[high].SI() {
		return text + units.Nominal(s.Y[0]).String() + " throughout" + bandText(s)
	}
	at := func(i int) string { return units.Nominal(s.Y[i]).String() + " at " + s.X[i].String() }
	return text + "lowest " + at(low) + ", highest " + at(high) + bandText(s)
}

// bandText is how far a curve goes in all cases.
func bandText(s plot.Series) string {
	var low, high units.Quantity
	found := false
	for _, y := range s.Y {
		l, h, ok := y.Limits()
		if !ok {
			l, h = y, y
		}
		found = found || ok && !l.Same(h)
		if low == (units.Quantity{}) || l.Less(low) {
			low = l
		}
		if high == (units.Quantity{}) || high.Less(h) {
			high = h
		}
	}
	if !found {
		return ""
	}
	return ", limits " + Limits(low, high)
}

// markText is a limit, with its value where its name does not say it.
func markText(f plot.Figure, m plot.Mark) string {
	text := oneLine(m.Name)
	if v := m.Value.String(); !strings.Contains(text, v) {
		text += ", " + v
	}
	return text
}

// figureAlt describes a figure in one line.
func figureAlt(f plot.Figure) string {
	parts := []string{figureName(f)}
	for _, s := range f.Series {
		parts = append(parts, seriesText(f, s))
	}
	for _, m := range f.Marks {
		parts = append(parts, "limit "+markText(f, m))
	}
	return strings.Join(parts, "; ")
}
