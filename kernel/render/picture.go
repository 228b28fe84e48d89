package render

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image/color"
	"math"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgimg"
	"gonum.org/v1/plot/vg/vgsvg"

	"ohmwright/kernel/note"
	"ohmwright/units"
)

// The picture in print: as wide as a column of text.
const (
	pictureWidth  = 14.5 * vg.Centimeter
	pictureHeight = 7.5 * vg.Centimeter
	pictureDPI    = 144
)

// SpreadPicture draws what Spread(x) shows: the boards that were drawn as a
// histogram, and on it the nominal value, the limits, and the limits by root of
// the sum of squares. Both pictures are the same drawing in black, grey and
// white, with a background of their own. They are nil where chance does not
// move x: then there are no boards to count.
func SpreadPicture(s *note.Spreading) (svg, png []byte, err error) {
	if s.Spread == nil || len(s.Bins) == 0 {
		return nil, nil, nil
	}
	p, err := spreadPlot(s)
	if err != nil {
		return nil, nil, err
	}
	return pictures(p.Draw, pictureHeight)
}

// pictures draws something as SVG and PNG, so high.
func pictures(picture func(draw.Canvas), height vg.Length) (svg, png []byte, err error) {
	vector := vgsvg.New(pictureWidth, height)
	compose(picture, vector)
	var b, c bytes.Buffer
	if _, err := vector.WriteTo(&b); err != nil {
		return nil, nil, err
	}
	raster := vgimg.PngCanvas{Canvas: vgimg.NewWith(vgimg.UseWH(pictureWidth, height), vgimg.UseDPI(pictureDPI))}
	compose(picture, raster)
	if _, err := raster.WriteTo(&c); err != nil {
		return nil, nil, err
	}
	// Where the font is missing, one of the same widths stands in for it.
	fonts := []byte("font-family:Liberation Sans,Arial,Helvetica,sans-serif")
	return bytes.ReplaceAll(b.Bytes(), []byte("font-family:Liberation Sans"), fonts), c.Bytes(), nil
}

// compose draws a picture on a white page with a margin.
func compose(picture func(draw.Canvas), canvas vg.CanvasSizer) {
	c := draw.New(canvas)
	c.FillPolygon(color.White, []vg.Point{c.Min, {X: c.Max.X, Y: c.Min.Y}, c.Max, {X: c.Min.X, Y: c.Max.Y}})
	const margin = 6 * vg.Inch / 72
	picture(draw.Crop(c, margin, -margin, margin, -margin))
}

// PictureBundle is the picture of an item for Jupyter: image/svg+xml, image/png
// in base64, and text/plain. An item without a picture has no bundle, nil.
func PictureBundle(item note.Item) map[string]string {
	var svg, png []byte
	var err error
	name, text := "", ""
	switch x := item.(type) {
	case *note.Spreading:
		name = spreadName(x)
		if svg, png, err = SpreadPicture(x); svg != nil {
			text = fmt.Sprintf("%s on %d boards, %s", name, x.Boards, Limits(x.Bins[0].From, x.Bins[len(x.Bins)-1].To))
		}
	case *note.Plotted:
		if x.Tree != nil {
			name = treeName(x.Tree)
			text = name
			svg, png, err = TreePicture(*x.Tree)
			break
		}
		name = figureName(x.Figure)
		text = name // the statement above says the rest
		svg, png, err = FigurePicture(x.Figure)
	}
	switch {
	case err != nil:
		return map[string]string{"text/plain": "picture of " + name + " cannot be drawn: " + oneLine(err.Error()) + "\n"}
	case svg == nil:
		return nil
	}
	return map[string]string{
		"image/svg+xml": string(svg),
		"image/png":     base64.StdEncoding.EncodeToString(png),
		"text/plain":    "picture: " + text + "\n",
	}
}

// spreadName is what spreads, as short as fits beside an axis.
func spreadName(s *note.Spreading) string {
	if s.Formula == nil {
		return "value"
	}
	return cutCells(oneLine(Formula(s.Formula, Plain)))
}

// mark is a value that stands in the picture as a line with its name.
type mark struct {
	name   string
	x      float64
	dashes []vg.Length
	upper  bool // its name stands in the upper of two rows
	beside draw.XAlignment
}

// spreadPlot composes the picture.
func spreadPlot(s *note.Spreading) (*plot.Plot, error) {
	numbers, unit, err := onAxis(s)
	if err != nil {
		return nil, err
	}
	edges, rest := numbers[:len(s.Bins)+1], numbers[len(s.Bins)+1:]
	p := plot.New()
	for _, style := range []*text.Style{&p.Title.TextStyle, &p.X.Label.TextStyle, &p.Y.Label.TextStyle, &p.X.Tick.Label, &p.Y.Tick.Label} {
		style.Font = sans(9)
	}
	ranges, drifts := others(s)
	p.Title.Text = fmt.Sprintf("%d boards, %s", s.Boards, assumedText(s.Assumed)) + given(ranges, ", ranges at their usual value") + given(drifts, ", no drift")
	p.X.Label.Text, p.Y.Label.Text = spreadName(s), "boards"
	if unit != "" {
		p.X.Label.Text += " in " + unit
	}
	p.X.Tick.Marker, p.Y.Tick.Marker = ticks{}, ticks{}

	h := &plotter.Histogram{Width: edges[1] - edges[0], FillColor: color.Gray{0xd0}}
	h.LineStyle = draw.LineStyle{Color: color.Gray{0x60}, Width: vg.Points(0.5)}
	tallest := 1.0
	for i, b := range s.Bins {
		h.Bins = append(h.Bins, plotter.HistogramBin{Min: edges[i], Max: edges[i+1], Weight: float64(b.Boards)})
		tallest = max(tallest, float64(b.Boards))
	}
	p.Add(h)

	dashed, dotted := []vg.Length{vg.Points(5), vg.Points(3)}, []vg.Length{vg.Points(1), vg.Points(2)}
	marks := []mark{
		{"nominal", rest[0], nil, true, draw.XCenter},
		{"low", rest[1], dashed, true, draw.XCenter}, {"high", rest[2], dashed, true, draw.XCenter},
	}
	if s.RSSLow != nil && s.RSSHigh != nil {
		// Their names stand inwards, where the lines of the limits do not cross them.
		marks = append(marks, mark{"rss", rest[3], dotted, false, draw.XLeft}, mark{"rss", rest[4], dotted, false, draw.XRight})
	}
	lowest, highest := edges[0], edges[len(edges)-1]
	for _, m := range marks {
		lowest, highest = min(lowest, m.x), max(highest, m.x)
	}
	margin := 0.06 * (highest - lowest)
	p.X.Min, p.X.Max = lowest-margin, highest+margin
	p.Y.Min, p.Y.Max = 0, 1.3*tallest
	for _, m := range marks {
		if err := addMark(p, m, tallest); err != nil {
			return nil, err
		}
	}
	return p, nil
}

// addMark adds the line of a mark and its name on top of it.
func addMark(p *plot.Plot, m mark, tallest float64) error {
	top := 1.06 * tallest
	if m.upper {
		top = 1.19 * tallest
	}
	line, err := plotter.NewLine(plotter.XYs{{X: m.x, Y: 0}, {X: m.x, Y: top}})
	if err != nil {
		return err
	}
	line.LineStyle = draw.LineStyle{Color: color.Black, Width: vg.Points(1.2), Dashes: m.dashes}
	name, err := plotter.NewLabels(plotter.XYLabels{XYs: plotter.XYs{{X: m.x, Y: top}}, Labels: []string{m.name}})
	if err != nil {
		return err
	}
	style := &name.TextStyle[0]
	style.Font, style.XAlign, style.YAlign = sans(9), m.beside, draw.YBottom
	name.Offset.Y = vg.Points(1.5)
	switch m.beside {
	case draw.XLeft:
		name.Offset = vg.Point{X: vg.Points(3), Y: -vg.Points(8)}
	case draw.XRight:
		name.Offset = vg.Point{X: -vg.Points(3), Y: -vg.Points(8)}
	}
	p.Add(line, name)
	return nil
}

func sans(points float64) font.Font {
	return font.Font{Typeface: "Liberation", Variant: "Sans", Size: vg.Points(points)}
}

// onAxis gives the edges of the classes, the nominal value, the limits and
// those by root of the sum of squares as numbers in one unit.
func onAxis(s *note.Spreading) ([]float64, string, error) {
	var qs []units.Quantity
	for _, b := range s.Bins {
		qs = append(qs, b.From)
	}
	qs = append(qs, s.Bins[len(s.Bins)-1].To, s.Value, s.Spread.Low, s.Spread.High)
	if s.RSSLow != nil && s.RSSHigh != nil {
		qs = append(qs, *s.RSSLow, *s.RSSHigh)
	}
	return inOneUnit(false, qs, nil)
}

// ticks stand at round numbers, at most eight steps, each written in full:
// plot.DefaultTicks writes 4.95 as 5.
type ticks struct{}

func (ticks) Ticks(low, high float64) []plot.Tick {
	step, decimals := tickStep(low, high)
	var out []plot.Tick
	for n := math.Ceil(low/step - 1e-9); n*step <= high+1e-9*step; n++ {
		label := strconv.FormatFloat(n*step+0, 'f', decimals, 64) // + 0 takes the sign off −0
		out = append(out, plot.Tick{Value: n * step, Label: strings.Replace(label, "-", "−", 1)})
	}
	return out
}
