package render

import (
	"bytes"
	"encoding/base64"
	"encoding/xml"
	"errors"
	"image/png"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"ohmwright/kernel/note"
	"ohmwright/lib/plot"
	"ohmwright/units"
)

func numbersOf(unit string, xs ...float64) []units.Quantity {
	var out []units.Quantity
	for _, x := range xs {
		out = append(out, q("1 "+unit).Mul(units.Number(x)))
	}
	return out
}

// sampleFigures are invented, but for the impedances, which follow from 1/(2πfC)
// and 2πfL.
func sampleFigures() map[string]plot.Figure {
	var amperes, kelvins, etas []float64
	for i := range 61 {
		x := 0.15 + (1.5-0.15)*float64(i)/60
		amperes, kelvins, etas = append(amperes, x), append(kelvins, 8+22*x*x), append(etas, 0.93-0.02/x-0.03*x)
	}
	iout := numbersOf("A", amperes...)
	var tj, eta []units.Quantity
	for i := range iout {
		rise := kelvins[i]
		at := func(air float64) units.Quantity { return q("0 °C").Add(q("1 K").Mul(units.Number(air + rise))) }
		tj = append(tj, units.Range(at(-20), at(25), at(60)))
		eta = append(eta, units.Band(units.Number(etas[i]-0.02), units.Number(etas[i]), units.Number(etas[i]+0.01)).In("%"))
	}
	temperature := plot.Figure{XName: "Iout", YName: "Tj", Series: []plot.Series{{Name: "Tj", X: iout, Y: tj}},
		Marks: []plot.Mark{{Name: "Tj ≤ 125 °C", Value: q("125 °C")}, {Name: "Tj ≥ −40 °C", Value: q("-40 °C")}}}
	efficiency := plot.Figure{XName: "Iout", YName: "η", LogX: true, Series: []plot.Series{{Name: "η", X: iout, Y: eta}},
		Marks: []plot.Mark{{Name: "η ≥ 75 %", Value: q("75 %")}, {Name: "usual load", Value: q("0.6 A"), AlongX: true}}}
	var hertz, cs, ls []float64
	for i := range 61 {
		f := math.Pow(10, 1+5*float64(i)/60)
		hertz, cs, ls = append(hertz, f), append(cs, 1/(2*math.Pi*f*1e-6)), append(ls, 2*math.Pi*f*1e-3)
	}
	impedance := plot.Figure{Title: "Capacitor and choke of the filter", XName: "frequency", LogX: true, LogY: true, Series: []plot.Series{
		{Name: "1 µF", X: numbersOf("Hz", hertz...), Y: numbersOf("Ω", cs...)},
		{Name: "1 mH", X: numbersOf("Hz", hertz...), Y: numbersOf("Ω", ls...)},
	}, Marks: []plot.Mark{{Name: "switching frequency", Value: q("400 kHz"), AlongX: true}}}
	many := plot.Figure{XName: "time", YName: "voltage"}
	for k, name := range []string{"rail", "reference", "enable", "feedback pin", "supply of the gate driver", "monitor"} {
		s := plot.Series{Name: name}
		for i := range 41 {
			t := float64(i) / 4
			s.X = append(s.X, numbersOf("ms", t)...)
			v := (5 - 0.7*float64(k)) * (1 - math.Exp(-t/(1+float64(k))))
			s.Y = append(s.Y, numbersOf("V", v)...)
			if k < 2 {
				s.Y[i] = units.Band(q("1V").Mul(units.Number(v*0.93)), q("1V").Mul(units.Number(v)), q("1V").Mul(units.Number(v*1.05)))
			}
		}
		many.Series = append(many.Series, s)
	}
	measured := plot.Figure{XName: "load", YName: "loss", Series: []plot.Series{
		{Name: "computed", X: numbersOf("mA", 0, 5, 10, 15, 20, 25), Y: numbersOf("mW", 12, 95, 180, 270, 355, 440)},
		{Name: "measured", X: numbersOf("mA", 2, 15, 25), Y: numbersOf("mW", 45, 280, 452)},
	}, Marks: []plot.Mark{{Name: "allowed", Value: q("5 W")}}}
	return map[string]plot.Figure{"temperature": temperature, "efficiency": efficiency, "impedance": impedance, "many": many, "measured": measured}
}

// Every picture: the same bytes each time, well-formed, opaque and grey, with a
// description for who cannot see it.
func TestFigurePicture(t *testing.T) {
	t.Parallel()
	for name, f := range sampleFigures() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			svg, raster, err := FigurePicture(f)
			if err != nil {
				t.Fatal(err)
			}
			if again, rasterAgain, _ := FigurePicture(f); !bytes.Equal(svg, again) || !bytes.Equal(raster, rasterAgain) {
				t.Error("the same picture has other bytes")
			}
			alt, words := readSVG(t, svg)
			if alt != figureAlt(f) {
				t.Errorf("the picture describes itself as %q, want %q", alt, figureAlt(f))
			}
			all := "|" + strings.Join(words, "|") + "|"
			if len(f.Series) > 1 {
				for _, s := range f.Series {
					if !strings.Contains(all, "|"+s.Name+"|") {
						t.Errorf("the legend does not name %s: %s", s.Name, all)
					}
				}
			}
			for _, m := range f.Marks {
				if !strings.Contains(all, "|"+m.Name) {
					t.Errorf("%s does not stand in the picture: %s", m.Name, all)
				}
			}
			picture, err := png.Decode(bytes.NewReader(raster))
			if err != nil {
				t.Fatal(err)
			}
			for y := range picture.Bounds().Dy() {
				for x := range picture.Bounds().Dx() {
					if r, g, b, a := picture.At(x, y).RGBA(); a != 0xffff || r != g || g != b {
						t.Fatalf("a pixel that is coloured or transparent: %v", picture.At(x, y))
					}
				}
			}
		})
	}
}

// readSVG gives the description of a picture and its words.
func readSVG(t *testing.T, svg []byte) (alt string, words []string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return alt, words
		}
		if err != nil {
			t.Fatal(err)
		}
		switch x := tok.(type) {
		case xml.StartElement:
			if x.Name.Local == "svg" {
				for _, a := range x.Attr {
					if a.Name.Local == "aria-label" {
						alt = a.Value
					}
				}
			}
		case xml.CharData:
			if w := strings.TrimSpace(string(x)); w != "" {
				words = append(words, w)
			}
		}
	}
}

// What stands at the axes, by hand.
func TestFigureAxes(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ figure, x, y string }{
		{"temperature", "Iout in A: 0.2 0.4 0.6 0.8 1.0 1.2 1.4", "Tj in °C: −50 0 50 100 150"},
		{"efficiency", "Iout in mA: 200 500 1000", "η in %: 74 76 78 80 82 84 86 88 90"},
		{"impedance", "frequency in kHz: 0.01 0.1 1 10 100 1000", "resistance in Ω: 0.1 1 10 100 1000 10000"},
		{"many", "time in ms: 0 2 4 6 8 10", "voltage in V: 0 1 2 3 4 5 6"},
		{"measured", "load in mA: 0 5 10 15 20 25", "loss in mW: 0 100 200 300 400 500"},
	} {
		k, err := newChart(sampleFigures()[c.figure])
		if err != nil {
			t.Fatal(err)
		}
		for _, side := range []struct {
			a    axis
			want string
		}{{k.x, c.x}, {k.y, c.y}} {
			got := side.a.label + ":"
			for _, tick := range side.a.ticks {
				if tick.Label != "" {
					got += " " + tick.Label
				}
			}
			if got != side.want {
				t.Errorf("%s has %s, want %s", c.figure, got, side.want)
			}
		}
	}
}

// A limit stands where the ticks of its axis say: 125 °C in the middle
// between the ticks of 100 °C and 150 °C.
func TestLimitStandsOnTheAxis(t *testing.T) {
	t.Parallel()
	svg, _, err := FigurePicture(sampleFigures()["temperature"])
	if err != nil {
		t.Fatal(err)
	}
	heights := func(pattern string) (ys []float64) {
		for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(string(svg), -1) {
			if m[1] != m[2] {
				continue // it is not level
			}
			y, err := strconv.ParseFloat(m[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			ys = append(ys, y)
		}
		return ys
	}
	limits := heights(`<path d="M[0-9.]+,([0-9.]+)L[0-9.]+,([0-9.]+)" style="[^"]*stroke-dasharray:10`)
	ticks := heights(`<path d="M[0-9.]+,([0-9.]+)L[0-9.]+,([0-9.]+)" style="[^"]*stroke:#E0E0E0`)
	if len(limits) != 2 || len(ticks) != 5 {
		t.Fatalf("limits at %v, lines of the grid at %v", limits, ticks)
	}
	perKelvin := (ticks[4] - ticks[0]) / 200
	for i, celsius := range []float64{125, -40} {
		if want := ticks[0] + (celsius+50)*perKelvin; math.Abs(limits[i]-want) > 0.05 {
			t.Errorf("%v °C stands at %v, want %v", celsius, limits[i], want)
		}
	}
}

// An axis covers what it shows, its ticks lie on it in rising order and say
// where they are.
func TestAxesCoverTheData(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		log := rapid.Bool().Draw(t, "log")
		wide := rapid.Bool().Draw(t, "wide")
		low := rapid.Float64Range(-1000, 1000).Draw(t, "low")
		size := math.Pow(10, rapid.Float64Range(-3, 4).Draw(t, "size"))
		high := low + size
		if log {
			low = math.Pow(10, rapid.Float64Range(-6, 6).Draw(t, "log low"))
			high = low * math.Pow(10, rapid.Float64Range(0.01, 12).Draw(t, "decades"))
		}
		a := newAxis("x", "V", low, high, log, wide)
		if a.low > low+1e-9*size && !log || log && a.low > low*(1+1e-9) || a.high < high-1e-9*size && !log || log && a.high < high*(1-1e-9) {
			t.Fatalf("from %v to %v the axis goes from %v to %v", low, high, a.low, a.high)
		}
		names := 0
		for i, tick := range a.ticks {
			if i > 0 && !(tick.Value > a.ticks[i-1].Value && a.place(tick.Value) > a.place(a.ticks[i-1].Value)) {
				t.Fatalf("ticks are out of order: %v", a.ticks)
			}
			edge := 1e-6 * (a.high - a.low)
			if log {
				edge = 1e-6 * tick.Value
			}
			if tick.Value < a.low-edge || tick.Value > a.high+edge {
				t.Fatalf("a tick at %v beside the axis from %v to %v", tick.Value, a.low, a.high)
			}
			if tick.Label == "" {
				continue
			}
			names++
			if !strings.ContainsAny(tick.Label, "·⁰¹²³⁴⁵⁶⁷⁸⁹") {
				if at := magnitude(tick.Label); math.Abs(at-tick.Value) > 1e-6*max(math.Abs(tick.Value), a.high-a.low) {
					t.Fatalf("the tick at %v is called %s", tick.Value, tick.Label)
				}
			}
		}
		if names < 2 || names > 20 {
			t.Fatalf("from %v to %v (logarithmic: %v) %d ticks have names: %v", a.low, a.high, log, names, a.ticks)
		}
	})
}

// A curve that does not move, one point far off, and names that are words of
// HTML.
func TestFiguresAtTheEdge(t *testing.T) {
	t.Parallel()
	level := plot.Series{Name: `<b> & "x"`, X: numbersOf("s", 1, 2), Y: numbersOf("V", 0, 0)}
	tiny := plot.Series{Name: "tiny", X: numbersOf("s", 1e-9, 2), Y: numbersOf("V", 1e-12, 5)}
	for _, f := range []plot.Figure{
		{Series: []plot.Series{level}},
		{Series: []plot.Series{tiny}, LogX: true, LogY: true},
		{Series: []plot.Series{tiny, level}, Marks: []plot.Mark{{Name: "a", Value: q("5 V")}, {Name: "b", Value: q("5 V")}, {Name: "c", Value: q("-1 kV")}, {Name: "d", Value: q("1 s"), AlongX: true}}},
		{Series: []plot.Series{{X: numbersOf("V", 1, 2), Y: []units.Quantity{units.Number(1), units.Number(1)}}}, LogY: true},
		{Series: []plot.Series{{X: numbersOf("V", 1, 2), Y: []units.Quantity{units.Number(0.5), q("70 %")}}}, Marks: []plot.Mark{{Name: "m", Value: q("60 %")}}},
		{Series: []plot.Series{{X: []units.Quantity{q("-40 °C"), q("85 °C")}, Y: []units.Quantity{q("-3 dBm"), q("10 dBm")}}}},
	} {
		svg, _, err := FigurePicture(f)
		if err != nil {
			t.Fatal(err)
		}
		if alt, _ := readSVG(t, svg); alt != figureAlt(f) {
			t.Errorf("described as %q", alt)
		}
		if strings.Contains(string(svg), "NaN") || strings.Contains(string(svg), "Inf") {
			t.Errorf("the picture of %s has a place that is no number", figureAlt(f))
		}
	}
}

func TestFigureBundle(t *testing.T) {
	t.Parallel()
	b := PictureBundle(&note.Plotted{Figure: sampleFigures()["temperature"]})
	want := "picture: Tj over Iout\n"
	if len(b) != 3 || b["text/plain"] != want || !strings.Contains(b["image/svg+xml"], "<svg role=") {
		t.Errorf("%d kinds, in words %q", len(b), b["text/plain"])
	}
	if raw, err := base64.StdEncoding.DecodeString(b["image/png"]); err != nil || !bytes.HasPrefix(raw, []byte("\x89PNG")) {
		t.Errorf("the PNG is none: %v", err)
	}
}
