package render

import (
	"image/color"
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// reach is how far the values of an axis go.
type reach struct {
	low, high float64
	log       bool
}

func newReach(numbers []float64, log bool) reach {
	r := reach{numbers[0], numbers[0], log}
	for _, v := range numbers {
		r.low, r.high = min(r.low, v), max(r.high, v)
	}
	return r
}

// tooFar is how much a mark may stretch an axis: beyond that the curve would be
// flat for its sake.
const tooFar = 5

// take widens the reach to a mark, or says where that lies if it is too far off.
func (r *reach) take(at float64, alongX bool) string {
	low, high, v := r.low, r.high, at
	if r.log {
		low, high, v = math.Log(low), math.Log(high), math.Log(at)
	}
	height := high - low
	if wide := max(high, v) - min(low, v); height > 0 && wide > tooFar*height {
		switch {
		case alongX && v > high:
			return "farther right"
		case alongX:
			return "farther left"
		case v > high:
			return "above the picture"
		}
		return "below the picture"
	}
	r.low, r.high = min(r.low, at), max(r.high, at)
	return ""
}

// sparse: the points of a curve are so few that each is shown.
func (c *curve) sparse() bool { return len(c.x) <= 25 }

func (c *curve) point(to *draw.Canvas, at vg.Point) {
	to.DrawGlyphNoClip(draw.GlyphStyle{Color: c.style.Color, Radius: vg.Points(2.2), Shape: c.shape}, at)
}

// sheet draws what lies between the axes.
type sheet struct {
	*chart
	words text.Style
	lines [][]vg.Point // of curves and bands, which words are not to cover
	taken []vg.Rectangle
}

// Plot draws the grid, the bands, the marks, the curves and the words.
func (s *sheet) Plot(c draw.Canvas, p *plot.Plot) {
	s.lines, s.taken = nil, nil
	evenX, evenY := p.Transforms(&c)
	trX := func(v float64) vg.Length { return evenX(s.x.place(v)) }
	trY := func(v float64) vg.Length { return evenY(s.y.place(v)) }
	grid := draw.LineStyle{Color: color.Gray{0xe0}, Width: vg.Points(0.4)}
	for _, t := range s.x.ticks {
		if t.Label != "" {
			c.StrokeLine2(grid, trX(t.Value), c.Min.Y, trX(t.Value), c.Max.Y)
		}
	}
	for _, t := range s.y.ticks {
		if t.Label != "" {
			c.StrokeLine2(grid, c.Min.X, trY(t.Value), c.Max.X, trY(t.Value))
		}
	}
	path := func(x, y []float64) []vg.Point {
		out := make([]vg.Point, len(x))
		for i := range x {
			out[i] = vg.Point{X: trX(x[i]), Y: trY(y[i])}
		}
		return out
	}
	for _, k := range s.curves {
		if k.low == nil {
			continue
		}
		outline := path(k.x, k.low)
		upper := path(k.x, k.high)
		for i := len(upper) - 1; i >= 0; i-- {
			outline = append(outline, upper[i])
		}
		c.FillPolygon(k.shade, outline)
	}
	for _, k := range s.curves {
		if k.low != nil {
			fence := draw.LineStyle{Color: k.fence, Width: vg.Points(0.5), Dashes: k.style.Dashes}
			low, high := path(k.x, k.low), path(k.x, k.high)
			c.StrokeLines(fence, low, high)
			s.lines = append(s.lines, low, high)
		}
	}
	limit := draw.LineStyle{Color: color.Black, Width: vg.Points(0.8), Dashes: []vg.Length{vg.Points(10), vg.Points(4)}}
	for _, m := range s.marks {
		if m.alongX {
			c.StrokeLine2(limit, trX(m.at), c.Min.Y, trX(m.at), c.Max.Y)
			s.lines = append(s.lines, []vg.Point{{X: trX(m.at), Y: c.Min.Y}, {X: trX(m.at), Y: c.Max.Y}})
		} else {
			c.StrokeLine2(limit, c.Min.X, trY(m.at), c.Max.X, trY(m.at))
			s.lines = append(s.lines, []vg.Point{{X: c.Min.X, Y: trY(m.at)}, {X: c.Max.X, Y: trY(m.at)}})
		}
	}
	for i := range s.curves {
		k := &s.curves[i]
		points := path(k.x, k.y)
		c.StrokeLines(k.style, points)
		s.lines = append(s.lines, points)
		if k.sparse() {
			for _, pt := range points {
				k.point(&c, pt)
			}
		}
	}
	for _, m := range s.marks {
		s.name(&c, m, trX, trY)
	}
}

// name writes the name of a mark beside its line, where it covers the least.
func (s *sheet) name(c *draw.Canvas, m chartMark, trX, trY func(float64) vg.Length) {
	words := s.words
	words.XAlign, words.YAlign = draw.XLeft, draw.YBottom
	w, h := words.Width(m.name), words.Height(m.name)
	const off = 3 * vg.Inch / 72
	var places []vg.Point // of the lower left corner
	if m.alongX {
		for _, y := range []vg.Length{c.Max.Y - h - off, c.Min.Y + off, (c.Min.Y + c.Max.Y - h) / 2} {
			places = append(places, vg.Point{X: trX(m.at) + off, Y: y}, vg.Point{X: trX(m.at) - off - w, Y: y})
		}
	} else {
		for _, x := range []vg.Length{c.Max.X - w - off, c.Min.X + off, (c.Min.X + c.Max.X - w) / 2} {
			places = append(places, vg.Point{X: x, Y: trY(m.at) + off}, vg.Point{X: x, Y: trY(m.at) - off - h})
		}
	}
	best, least := vg.Rectangle{}, math.MaxInt
	for _, at := range places {
		box := vg.Rectangle{Min: at, Max: vg.Point{X: at.X + w, Y: at.Y + h}}
		if bad := s.covered(c, box); bad < least {
			best, least = box, bad
		}
	}
	s.taken = append(s.taken, best)
	// White behind it, so that no grid goes through it.
	if least == 0 {
		c.FillPolygon(color.White, []vg.Point{best.Min, {X: best.Max.X, Y: best.Min.Y}, best.Max, {X: best.Min.X, Y: best.Max.Y}})
	}
	c.FillText(words, best.Min, m.name)
}

// covered counts what a box would cover, other words most of all.
func (s *sheet) covered(c *draw.Canvas, box vg.Rectangle) int {
	n := 0
	if box.Min.X < c.Min.X || box.Max.X > c.Max.X || box.Min.Y < c.Min.Y || box.Max.Y > c.Max.Y {
		n += 10_000
	}
	for _, t := range s.taken {
		if box.Min.X < t.Max.X && t.Min.X < box.Max.X && box.Min.Y < t.Max.Y && t.Min.Y < box.Max.Y {
			n += 100_000
		}
	}
	const pieces = 16 // of the way from one point to the next
	for _, line := range s.lines {
		for i := 1; i < len(line); i++ {
			for k := range pieces + 1 {
				part := vg.Length(k) / pieces
				x, y := line[i-1].X+(line[i].X-line[i-1].X)*part, line[i-1].Y+(line[i].Y-line[i-1].Y)*part
				if box.Min.X <= x && x <= box.Max.X && box.Min.Y <= y && y <= box.Max.Y {
					n++
				}
			}
		}
	}
	return n
}
