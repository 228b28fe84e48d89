package render

import (
	"bytes"
	"html"
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	plotdata "ohmwright/lib/plot"
	"ohmwright/units"
)

// FigurePicture draws the curves of a figure over its axes as SVG and PNG. Where
// Y has spread, its limits are shaded; marks are drawn across, with their
// names. Curves are told apart by dashes, grey and the shape of their points, so
// that it takes no colours. The legend stands above the picture, and words in
// the picture where they cover no curve. The SVG describes itself to those who
// cannot see it.
func FigurePicture(f plotdata.Figure) (svg, png []byte, err error) {
	c, err := newChart(f)
	if err != nil {
		return nil, nil, err
	}
	if svg, png, err = pictures(c.draw, pictureHeight); err != nil {
		return nil, nil, err
	}
	role := []byte(`<svg role="img" aria-label="` + html.EscapeString(figureAlt(f)) + `" `)
	return bytes.Replace(svg, []byte("<svg "), role, 1), png, nil
}

// chart is a figure in numbers of its axes.
type chart struct {
	title  string
	x, y   axis
	curves []curve
	marks  []chartMark
	beyond []string // marks that lie too far off to be drawn
}

type curve struct {
	name         string
	x, y         []float64
	low, high    []float64 // nil where Y is exact
	style        draw.LineStyle
	shape        draw.GlyphDrawer
	shade, fence color.Gray
}

type chartMark struct {
	name   string
	at     float64
	alongX bool
}

// newChart brings the values of a figure to one unit an axis.
func newChart(f plotdata.Figure) (*chart, error) {
	var xs, ys []units.Quantity
	for _, s := range f.Series {
		for i := range s.X {
			low, high, ok := s.Y[i].Limits()
			if !ok {
				low, high = s.Y[i], s.Y[i]
			}
			xs, ys = append(xs, s.X[i]), append(ys, units.Nominal(s.Y[i]), units.Nominal(low), units.Nominal(high))
		}
	}
	nx, ny := len(xs), len(ys)
	var acrossX, acrossY []units.Quantity
	for _, m := range f.Marks {
		if m.AlongX {
			acrossX = append(acrossX, m.Value)
		} else {
			acrossY = append(acrossY, m.Value)
		}
	}
	x, xUnit, err := inOneUnit(f.LogX, xs, acrossX)
	if err != nil {
		return nil, err
	}
	y, yUnit, err := inOneUnit(f.LogY, ys, acrossY)
	if err != nil {
		return nil, err
	}
	c := &chart{title: oneLine(f.Title)}
	k := 0
	for i, s := range f.Series {
		one := newCurve(i, oneLine(s.Name))
		spreads := false
		for j := range s.X {
			one.x, one.y = append(one.x, x[k]), append(one.y, y[3*k])
			one.low, one.high = append(one.low, y[3*k+1]), append(one.high, y[3*k+2])
			spreads = spreads || s.Y[j].HasSpread() && y[3*k+1] < y[3*k+2]
			k++
		}
		if !spreads {
			one.low, one.high = nil, nil
		}
		c.curves = append(c.curves, one)
	}
	onX, onY := newReach(x[:nx], f.LogX), newReach(y[:ny], f.LogY)
	atX, atY := x[nx:], y[ny:]
	for _, m := range f.Marks {
		reach, next := &onY, &atY
		if m.AlongX {
			reach, next = &onX, &atX
		}
		at := (*next)[0]
		*next = (*next)[1:]
		if where := reach.take(at, m.AlongX); where != "" {
			c.beyond = append(c.beyond, oneLine(m.Name)+" lies "+where)
			continue
		}
		c.marks = append(c.marks, chartMark{oneLine(m.Name), at, m.AlongX})
	}
	yName := f.YName
	if yName == "" && len(f.Series) == 1 {
		yName = f.Series[0].Name
	}
	c.x = newAxis(axisName(f.XName, f.Series[0].X[0]), xUnit, onX.low, onX.high, f.LogX, false)
	c.y = newAxis(axisName(yName, f.Series[0].Y[0]), yUnit, onY.low, onY.high, f.LogY, true)
	return c, nil
}

// newCurve gives the i-th curve its looks.
func newCurve(i int, name string) curve {
	pt := func(ls ...float64) (out []vg.Length) {
		for _, l := range ls {
			out = append(out, vg.Points(l))
		}
		return out
	}
	looks := []struct {
		grey   uint8
		width  float64
		dashes []vg.Length
		shape  draw.GlyphDrawer
	}{
		{0x00, 1.4, nil, draw.CircleGlyph{}},
		{0x00, 1.4, pt(6, 3), draw.RingGlyph{}},
		{0x00, 1.6, pt(1.5, 2.5), draw.BoxGlyph{}},
		{0x00, 1.4, pt(8, 2.5, 1.5, 2.5), draw.SquareGlyph{}},
		{0x88, 1.8, nil, draw.PyramidGlyph{}},
		{0x88, 1.8, pt(6, 3), draw.TriangleGlyph{}},
	}
	l := looks[i%len(looks)]
	c := curve{name: name, shape: l.shape, shade: color.Gray{0xe4}, fence: color.Gray{0x90}}
	c.style = draw.LineStyle{Color: color.Gray{l.grey}, Width: vg.Points(l.width), Dashes: l.dashes}
	if i == 0 {
		c.shade = color.Gray{0xd4}
	}
	return c
}

// draw sets the title, the legend and the plot below each other.
func (c *chart) draw(page draw.Canvas) {
	p := plot.New()
	words := p.X.Tick.Label
	words.Font = sans(9)
	words.XAlign, words.YAlign = draw.XCenter, draw.YTop
	row := words.Height("Åg") * 1.25
	top := vg.Length(0)
	if c.title != "" {
		page.FillText(words, vg.Point{X: page.Center().X, Y: page.Max.Y}, c.title)
		top += row * 1.1
	}
	for _, line := range c.legend(words, page.Max.X-page.Min.X) {
		c.drawLegend(&page, words, line, page.Max.Y-top-row/2)
		top += row
	}
	for _, style := range []*text.Style{&p.X.Label.TextStyle, &p.Y.Label.TextStyle, &p.X.Tick.Label, &p.Y.Tick.Label} {
		style.Font = sans(9)
	}
	p.Add(&sheet{chart: c, words: words})
	set := func(to *plot.Axis, a axis) {
		to.Min, to.Max, to.Label.Text = a.place(a.low), a.place(a.high), a.label
		var placed plot.ConstantTicks
		for _, t := range a.ticks {
			placed = append(placed, plot.Tick{Value: a.place(t.Value), Label: t.Label})
		}
		to.Tick.Marker = placed
	}
	set(&p.X, c.x)
	set(&p.Y, c.y)
	p.Draw(draw.Crop(page, 0, 0, 0, -top))
}

// legendItem names a curve, or says something without a sample.
type legendItem struct {
	curve *curve
	text  string
	width vg.Length
}

const (
	sampleWidth = 22 * vg.Inch / 72
	legendGap   = 14 * vg.Inch / 72
)

// legend breaks what it has to say into lines.
func (c *chart) legend(words text.Style, width vg.Length) (lines [][]legendItem) {
	var items []legendItem
	if len(c.curves) > 1 {
		for i := range c.curves {
			items = append(items, legendItem{&c.curves[i], c.curves[i].name, 0})
		}
	}
	for _, t := range c.beyond {
		items = append(items, legendItem{nil, t, 0})
	}
	used := vg.Length(0)
	for _, it := range items {
		it.text = cutRight(it.text, 60)
		it.width = words.Width(it.text)
		if it.curve != nil {
			it.width += sampleWidth + 4
		}
		if len(lines) == 0 || used+legendGap+it.width > width {
			lines, used = append(lines, nil), -legendGap
		}
		lines[len(lines)-1] = append(lines[len(lines)-1], it)
		used += legendGap + it.width
	}
	return lines
}

func (c *chart) drawLegend(page *draw.Canvas, words text.Style, line []legendItem, y vg.Length) {
	total := -legendGap
	for _, it := range line {
		total += legendGap + it.width
	}
	at := page.Center().X - total/2
	words.XAlign, words.YAlign = draw.XLeft, draw.YCenter
	for _, it := range line {
		x := at
		if it.curve != nil {
			page.StrokeLine2(it.curve.style, x, y, x+sampleWidth, y)
			if it.curve.sparse() {
				it.curve.point(page, vg.Point{X: x + sampleWidth/2, Y: y})
			}
			x += sampleWidth + 4
		}
		page.FillText(words, vg.Point{X: x, Y: y}, it.text)
		at += it.width + legendGap
	}
}
