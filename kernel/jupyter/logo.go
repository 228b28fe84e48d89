package jupyter

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"strings"
)

// The mark: an omega that stands on a surveyor's level line, a peg driven in
// below. It is drawn here, so that the SVG and both PNGs are one drawing.
//
// Lengths are in parts of a square of 64.

var (
	logoGround = color.NRGBA{0x1d, 0x3b, 0x3a, 0xff} // dark green
	logoMark   = color.NRGBA{0xf4, 0xe7, 0xc5, 0xff} // paper
	logoPeg    = color.NRGBA{0xe0, 0x8a, 0x2e, 0xff} // copper
)

const (
	logoCorner = 12.0 // radius of the ground's corners
	logoStroke = 5.5
	archX      = 32.0
	archY      = 24.5
	archR      = 14.5
	archGap    = 38.0 // degrees from straight down to the end of the arch
	levelY     = 44.5
	levelLeft  = 11.0
	levelRight = 53.0
	pegHalf    = 6.5 // half width of the peg's top
	pegTop     = 48.5
	pegBottom  = 58.5
)

type point struct{ x, y float64 }

// archEnd is where the arch ends on one side (-1 left, 1 right).
func archEnd(side float64) point {
	sin, cos := math.Sincos(archGap * math.Pi / 180)
	return point{archX + side*archR*sin, archY + archR*cos}
}

// foot is where the leg from the arch's end meets the level line.
func foot(side float64) point { return point{archX + side*9, levelY} }

func logoSVG() []byte {
	hex := func(c color.NRGBA) string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }
	l, r := archEnd(-1), archEnd(1)
	var b strings.Builder
	fmt.Fprint(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 64 64" width="64" height="64">`+"\n")
	fmt.Fprintf(&b, `<rect width="64" height="64" rx="%g" fill="%s"/>`+"\n", logoCorner, hex(logoGround))
	fmt.Fprintf(&b, `<path d="M%g %gL%.2f %.2fA%g %g 0 1 1 %.2f %.2fL%g %gM%g %gH%g" fill="none" stroke="%s" stroke-width="%g" stroke-linecap="round" stroke-linejoin="round"/>`+"\n",
		foot(-1).x, foot(-1).y, l.x, l.y, archR, archR, r.x, r.y, foot(1).x, foot(1).y,
		levelLeft, levelY, levelRight, hex(logoMark), logoStroke)
	fmt.Fprintf(&b, `<path d="M%g %gH%gL%g %gZ" fill="%s"/>`+"\n",
		archX-pegHalf, pegTop, archX+pegHalf, archX, pegBottom, hex(logoPeg))
	fmt.Fprint(&b, "</svg>\n")
	return []byte(b.String())
}

// logoAt is the colour of one point of the drawing.
func logoAt(p point) color.NRGBA {
	switch {
	case inPeg(p):
		return logoPeg
	case inMark(p):
		return logoMark
	case inGround(p):
		return logoGround
	}
	return color.NRGBA{}
}

func inGround(p point) bool {
	dx := math.Max(logoCorner-math.Min(p.x, 64-p.x), 0)
	dy := math.Max(logoCorner-math.Min(p.y, 64-p.y), 0)
	return dx*dx+dy*dy <= logoCorner*logoCorner
}

func inMark(p point) bool {
	const half = logoStroke / 2
	if distance(p, point{levelLeft, levelY}, point{levelRight, levelY}) <= half {
		return true
	}
	for _, side := range []float64{-1, 1} {
		if distance(p, archEnd(side), foot(side)) <= half {
			return true
		}
	}
	fromCentre := math.Hypot(p.x-archX, p.y-archY)
	fromDown := math.Abs(math.Atan2(p.x-archX, p.y-archY)) * 180 / math.Pi
	return math.Abs(fromCentre-archR) <= half && fromDown >= archGap
}

func inPeg(p point) bool {
	if p.y < pegTop || p.y > pegBottom {
		return false
	}
	return math.Abs(p.x-archX) <= pegHalf*(pegBottom-p.y)/(pegBottom-pegTop)
}

// distance of p from the line between a and b.
func distance(p, a, b point) float64 {
	vx, vy := b.x-a.x, b.y-a.y
	t := ((p.x-a.x)*vx + (p.y-a.y)*vy) / (vx*vx + vy*vy)
	t = math.Max(0, math.Min(1, t))
	return math.Hypot(p.x-a.x-t*vx, p.y-a.y-t*vy)
}

// logoPNG draws a square of size pixels, 8 × 8 samples each.
func logoPNG(size int) ([]byte, error) {
	const samples = 8
	m := image.NewNRGBA(image.Rect(0, 0, size, size))
	step := 64 / float64(size*samples)
	for y := range size {
		for x := range size {
			var r, g, b, a float64
			for i := range samples * samples {
				c := logoAt(point{(float64(x*samples+i%samples) + 0.5) * step, (float64(y*samples+i/samples) + 0.5) * step})
				w := float64(c.A) / 255
				r, g, b, a = r+float64(c.R)*w, g+float64(c.G)*w, b+float64(c.B)*w, a+w
			}
			if a > 0 {
				m.SetNRGBA(x, y, color.NRGBA{byte(r/a + 0.5), byte(g/a + 0.5), byte(b/a + 0.5), byte(a*255/(samples*samples) + 0.5)})
			}
		}
	}
	var out bytes.Buffer
	err := png.Encode(&out, m)
	return out.Bytes(), err
}

type logoFile struct {
	name string
	data []byte
}

// logoFiles are those that front ends look for beside kernel.json.
func logoFiles() ([]logoFile, error) {
	small, err := logoPNG(32)
	if err != nil {
		return nil, err
	}
	large, err := logoPNG(64)
	return []logoFile{{"logo-32x32.png", small}, {"logo-64x64.png", large}, {"logo-svg.svg", logoSVG()}}, err
}
