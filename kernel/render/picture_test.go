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

	"ohmwright/kernel/note"
	"ohmwright/units"
)

func TestSpreadPicture(t *testing.T) {
	t.Parallel()
	s := spreads(t)[0].(*note.Spreading)
	svg, raster, err := SpreadPicture(s)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		again, rasterAgain, _ := SpreadPicture(s)
		if !bytes.Equal(svg, again) || !bytes.Equal(raster, rasterAgain) {
			t.Fatal("the same picture has other bytes")
		}
	}
	d := xml.NewDecoder(bytes.NewReader(svg))
	var words []string
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		if c, ok := tok.(xml.CharData); ok && strings.TrimSpace(string(c)) != "" {
			words = append(words, strings.TrimSpace(string(c)))
		}
	}
	all := "|" + strings.Join(words, "|") + "|"
	for _, w := range []string{"nominal", "low", "high", "Vout in V", "boards", "2000 boards, parts uniform", "4.85", "5.15", "0", "100"} {
		if !strings.Contains(all, "|"+w+"|") {
			t.Errorf("%q does not stand in the picture: %s", w, all)
		}
	}
	if n := strings.Count(all, "|rss"); n != 2 {
		t.Errorf("rss stands %d times in the picture", n)
	}

	m, err := png.Decode(bytes.NewReader(raster))
	if err != nil {
		t.Fatal(err)
	}
	// 14.5 cm and 7.5 cm at 144 dots per 2.54 cm are 822 and 425.
	if b := m.Bounds(); math.Abs(float64(b.Dx())-822) > 1 || math.Abs(float64(b.Dy())-425) > 1 {
		t.Errorf("the picture is %v large", b)
	}
	dark := 0
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			r, g, b, a := m.At(x, y).RGBA()
			if a != 0xffff || r != g || g != b {
				t.Fatalf("a pixel that is coloured or transparent: %v", m.At(x, y))
			}
			if r < 0x4000 {
				dark++
			}
		}
	}
	if r, _, _, _ := m.At(1, 1).RGBA(); r != 0xffff || dark < 1000 {
		t.Errorf("the corner is %#x, %d pixels are dark", r, dark)
	}
}

// The lines of limits stand where the ticks of the axis say: at 4.83195 V and
// 5.14919 V, by proportion between the ticks 4.85 and 5.15.
func TestMarksStandOnTheAxis(t *testing.T) {
	t.Parallel()
	svg, _, err := SpreadPicture(spreads(t)[0].(*note.Spreading))
	if err != nil {
		t.Fatal(err)
	}
	position := func(pattern string) (at []float64) {
		for _, m := range regexp.MustCompile(pattern).FindAllStringSubmatch(string(svg), -1) {
			x, err := strconv.ParseFloat(m[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			at = append(at, x)
		}
		return at
	}
	dashed := position(`<path d="M([0-9.]+),[0-9.]+L[0-9.]+,[0-9.]+" style="[^"]*stroke-dasharray:5`)
	// The ticks of the lower axis: upright lines of 0.5 points, from the left.
	tick := position(`<path d="M([0-9.]+),[0-9.]+L[0-9.]+,[0-9.]+" style="fill:none;stroke:#000000;stroke-width:0.5"`)[:7]
	if len(dashed) != 2 {
		t.Fatalf("%d dashed lines in %s", len(dashed), svg)
	}
	perVolt := (tick[6] - tick[0]) / 0.30
	for i, volts := range []float64{4.83195, 5.14919} {
		if want := tick[0] + (volts-4.85)*perVolt; math.Abs(dashed[i]-want) > 0.1 {
			t.Errorf("%v V stands at %v, want %v (ticks at %v)", volts, dashed[i], want, tick)
		}
	}
}

func TestPictureBundle(t *testing.T) {
	t.Parallel()
	items := spreads(t)
	b := PictureBundle(items[0])
	if len(b) != 3 || !strings.Contains(b["image/svg+xml"], "<svg ") {
		t.Fatalf("bundle of %d kinds", len(b))
	}
	raw, err := base64.StdEncoding.DecodeString(b["image/png"])
	if err != nil {
		t.Fatal(err)
	}
	if _, err := png.Decode(bytes.NewReader(raw)); err != nil {
		t.Error(err)
	}
	if got, want := b["text/plain"], "picture: Vout on 2000 boards, 4.832 … 5.149 V\n"; got != want {
		t.Errorf("in place of a picture: %q, want %q", got, want)
	}
	// Without boards, and for what is no Spread, there is no picture.
	for _, it := range []note.Item{items[2], items[3], items[4]} {
		if b := PictureBundle(it); b != nil {
			t.Errorf("a picture of %T", it)
		}
	}
	s := *items[0].(*note.Spreading)
	s.Value = units.MustParse("5 A")
	if b := PictureBundle(&s); len(b) != 1 || b["text/plain"] != "picture of Vout cannot be drawn: 5 A has no place on an axis in V\n" {
		t.Errorf("volts and amperes on one axis: %q", b)
	}
}

func TestPicturesOfOtherScales(t *testing.T) {
	t.Parallel()
	bins := func(at ...string) (out []note.Bin) {
		for i := range at[1:] {
			out = append(out, note.Bin{From: q(at[i]), To: q(at[i+1]), Boards: 10 + i})
		}
		return out
	}
	for name, s := range map[string]*note.Spreading{
		"Tj in °C": {Value: q("10°C"), Spread: spread("-40°C", "85°C"), Bins: bins("-20°C", "0°C", "20°C", "40°C")},
		"Tj in dB": {Value: q("3dB"), Spread: spread("-1dB", "6dB"), Bins: bins("0dB", "3dB", "6dB")},
		"Tj":       {Value: q("0.5"), Spread: spread("-0.1", "1"), Bins: bins("0", "0.5", "0.9")},
		"Tj in nA": {Value: q("800pA"), Spread: spread("0.5nA", "1.2nA"), Bins: bins("600pA", "900pA", "1.1nA")},
	} {
		s.Formula = tree(t, "Tj", values{})
		svg, _, err := SpreadPicture(s)
		if err != nil || !strings.Contains(string(svg), ">"+name+"<") {
			t.Errorf("%s: %v", name, err)
		}
		if strings.Contains(string(svg), ">-") || strings.Contains(string(svg), ">−0<") {
			t.Errorf("%s has a hyphen for a minus, or −0", name)
		}
	}
}

func TestTicks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		low, high float64
		want      string
	}{ // by hand
		{4.813, 5.168, "4.85 4.90 4.95 5.00 5.05 5.10 5.15"},
		{4.8, 5.2, "4.80 4.85 4.90 4.95 5.00 5.05 5.10 5.15 5.20"},
		{0, 234, "0 50 100 150 200"},
		{-25, 57, "−20 0 20 40"},
		{-1, 1, "−1.0 −0.5 0.0 0.5 1.0"},
		{0, 13, "0 2 4 6 8 10 12"},
		{0, 5, "0 1 2 3 4 5"},
		{0, 70, "0 10 20 30 40 50 60 70"},
		{42.5581, 42.5583, "42.55810 42.55815 42.55820 42.55825 42.55830"},
	} {
		var got []string
		for _, tick := range (ticks{}).Ticks(c.low, c.high) {
			got = append(got, tick.Label)
		}
		if text := strings.Join(got, " "); text != c.want {
			t.Errorf("%v to %v: %s, want %s", c.low, c.high, text, c.want)
		}
	}
}
