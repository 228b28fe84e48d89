package render

import (
	"bytes"
	"html"
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"ohmwright/lib/powertree"
)

// TreePicture draws a power tree as a stream that runs down from the source,
// in the mode that takes most: each rail is a line of the table, and the arm
// that leads to it is as wide as the power it takes. At its line the arm
// parts: what the loads of the rail get runs on to the right, what its
// converter loses ends, grey, and the rest runs down to the rails behind it. A
// rail without current hangs on dots; one over its limit is striped, framed
// by dashes, and the last column says so.
func TreePicture(t powertree.Result) (svg, png []byte, err error) {
	mode := 0
	for i, m := range t.Modes {
		if m.Power.SI() > t.Modes[mode].Power.SI() {
			mode = i
		}
	}
	s := newStream(&t, mode)
	if svg, png, err = pictures(s.draw, s.height()); err != nil {
		return nil, nil, err
	}
	role := []byte(`<svg role="img" aria-label="` + html.EscapeString(treeAlt(&t, mode)) + `" `)
	return bytes.Replace(svg, []byte("<svg "), role, 1), png, nil
}

const (
	streamRow   = 25 * vg.Inch / 72
	streamHead  = 32 * vg.Inch / 72
	streamReach = 96 * vg.Inch / 72 // of the stream from the left edge
	columnWidth = 57 * vg.Inch / 72
)

// stream is a power tree in one mode on paper.
type stream struct {
	tree   *powertree.Result
	mode   int
	indent vg.Length
	widest vg.Length // what the source gives
	most   float64   // in W
	slice  []vg.Length
	parent []int
}

func newStream(t *powertree.Result, mode int) *stream {
	deepest := 0
	s := &stream{tree: t, mode: mode, most: t.Modes[mode].Power.SI(), slice: make([]vg.Length, len(t.Rails)), parent: make([]int, len(t.Rails))}
	last := map[int]int{}
	for i, r := range t.Rails {
		deepest = max(deepest, r.Depth)
		last[r.Depth] = i
		s.parent[i] = -1
		if r.Depth > 0 {
			s.parent[i] = last[r.Depth-1]
		}
	}
	s.indent = min(30, streamReach/vg.Length(deepest+1))
	s.widest = min(16, s.indent*0.6)
	// The first rail behind another leaves it at its right edge.
	used := make([]vg.Length, len(t.Rails))
	for i := len(t.Rails) - 1; i > 0; i-- {
		p := s.parent[i]
		s.slice[i] = used[p]
		used[p] += s.width(t.Rails[i].Flows[mode].InPower.SI())
	}
	return s
}

func (s *stream) height() vg.Length {
	return streamHead + streamRow*vg.Length(len(s.tree.Rails)) + 30
}

func (s *stream) width(watts float64) vg.Length {
	if !(s.most > 0) {
		return 0
	}
	return s.widest * vg.Length(watts/s.most)
}

// left is where the rails of a depth stand.
func (s *stream) left(depth int) vg.Length { return 8 + s.indent*vg.Length(depth) }

func (s *stream) draw(page draw.Canvas) {
	words := text.Style{Color: color.Black, Font: sans(9), XAlign: draw.XLeft, YAlign: draw.YCenter, Handler: plot.New().Title.TextStyle.Handler}
	small := words
	small.Font, small.Color = sans(7.5), color.Gray{0x50}
	y := func(i int) vg.Length { return page.Max.Y - streamHead - streamRow*(vg.Length(i)+0.5) }
	page.FillText(words, vg.Point{X: page.Min.X, Y: page.Max.Y - 7}, fitted(words, "mode "+oneLine(s.tree.Modes[s.mode].Name)+", which takes most: "+rounded(s.tree.Modes[s.mode].Power)+" from the source", page.Max.X-page.Min.X))
	names := page.Min.X + streamReach + 14
	right := func(k int) vg.Length { return page.Max.X - columnWidth*vg.Length(3-k) }
	head := small
	head.XAlign = draw.XRight
	for k, h := range []string{"current", "power", "heat", "left, worst"} {
		page.FillText(head, vg.Point{X: right(k), Y: page.Max.Y - 24}, h)
	}
	page.StrokeLine2(draw.LineStyle{Color: color.Black, Width: 0.5}, names, page.Max.Y-streamHead, page.Max.X, page.Max.Y-streamHead)
	for i, r := range s.tree.Rails {
		s.arm(&page, i, y)
		f := r.Flows[s.mode]
		room := right(0) - columnWidth + 12 - names
		name := words
		if name.Width(oneLine(r.Name)) > room {
			name.Font = sans(7.5)
		}
		page.FillText(name, vg.Point{X: names, Y: y(i) + 4.5}, fitted(name, oneLine(r.Name), room))
		page.FillText(small, vg.Point{X: names, Y: y(i) - 5}, fitted(small, rounded(r.Voltage)+" "+r.Kind, room))
		cells := []string{rounded(f.Out), rounded(f.Power), "", leftText(r)}
		if r.Depth > 0 {
			cells[2] = rounded(f.Heat)
		}
		for k, c := range cells {
			style := words
			style.XAlign = draw.XRight
			if style.Width(c) > columnWidth-2 {
				style.Font = sans(7.5)
			}
			page.FillText(style, vg.Point{X: right(k), Y: y(i)}, c)
		}
		if s.over(i) {
			dashes := draw.LineStyle{Color: color.Black, Width: 0.9, Dashes: []vg.Length{4, 2.5}}
			a, b := y(i)-streamRow/2+1, y(i)+streamRow/2-1
			page.StrokeLines(dashes, []vg.Point{{X: names - 4, Y: a}, {X: page.Max.X + 3, Y: a}, {X: page.Max.X + 3, Y: b}, {X: names - 4, Y: b}, {X: names - 4, Y: a}})
		}
	}
	foot := page.Min.Y + 7
	box(&page, page.Min.X, foot-3, page.Min.X+14, foot+3, color.Black)
	page.FillText(small, vg.Point{X: page.Min.X + 18, Y: foot}, "power, as wide as it is large")
	box(&page, page.Min.X+150, foot-3, page.Min.X+164, foot+3, color.Gray{0xb0})
	page.FillText(small, vg.Point{X: page.Min.X + 168, Y: foot}, "heat of a converter")
	page.StrokeLine2(dots, page.Min.X+262, foot, page.Min.X+276, foot)
	page.FillText(small, vg.Point{X: page.Min.X + 280, Y: foot}, "no current")
}

var dots = draw.LineStyle{Color: color.Black, Width: 0.8, Dashes: []vg.Length{0.8, 2}}

func (s *stream) over(i int) bool {
	low, ok := leastOf(s.tree.Rails[i].LeastLeft)
	return ok && low.SI() < 0
}

// arm draws what leads to a rail, and what parts from it there.
func (s *stream) arm(page *draw.Canvas, i int, y func(int) vg.Length) {
	r := s.tree.Rails[i]
	f := r.Flows[s.mode]
	x := page.Min.X + s.left(r.Depth)
	end := page.Min.X + streamReach + 8
	w := s.width(f.InPower.SI())
	low, high := y(i)-w/2, y(i)+w/2
	from := page.Min.X
	if p := s.parent[i]; p >= 0 {
		from = page.Min.X + s.left(s.tree.Rails[p].Depth) + s.slice[i]
		// It leaves the lower edge of its parent, whose onward part lies lowest.
		top := y(p) - s.width(s.tree.Rails[p].Flows[s.mode].InPower.SI())/2 + s.onward(p)
		if w > 0 {
			box(page, from, low, from+max(w, 0.5), top, color.Black)
		} else {
			page.StrokeLine2(dots, from, y(p), from, y(i))
		}
	}
	if !(w > 0) {
		page.StrokeLine2(dots, from, y(i), end, y(i))
		return
	}
	box(page, from, low, max(x, from+w), max(high, low+0.5), color.Black)
	onward, heat := s.onward(i), s.width(f.Heat.SI())
	if onward > 0 {
		box(page, x, low, x+onward, low+onward, color.Black)
	}
	if heat > 0 {
		box(page, x, low+onward, x+s.indent*0.85, low+onward+max(heat, 0.5), color.Gray{0xb0})
	}
	if loads := high - low - onward - heat; loads > 1e-9 {
		box(page, x, high-max(loads, 0.5), end, high, color.Black)
	}
	if s.over(i) {
		for at := from + 1; at < x-1; at += 3.5 {
			page.StrokeLine2(draw.LineStyle{Color: color.White, Width: 1.1}, at, low-0.3, at+3, high+0.3)
		}
	}
}

// onward is how wide what a rail gives to others leaves it.
func (s *stream) onward(i int) (w vg.Length) {
	for k, p := range s.parent {
		if p == i {
			w += s.width(s.tree.Rails[k].Flows[s.mode].InPower.SI())
		}
	}
	return w
}

func box(page *draw.Canvas, x1, y1, x2, y2 vg.Length, c color.Color) {
	page.FillPolygon(c, []vg.Point{{X: x1, Y: y1}, {X: x2, Y: y1}, {X: x2, Y: y2}, {X: x1, Y: y2}})
}

// fitted cuts a text to a width on paper.
func fitted(style text.Style, s string, room vg.Length) string {
	for n := cells(s); n > 1 && style.Width(s) > room; n-- {
		s = cutRight(s, n-1)
	}
	return s
}
