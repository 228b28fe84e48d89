package units

import (
	"errors"
	"strings"
	"testing"
	"unicode/utf8"
)

func FuzzScanLiteral(f *testing.F) {
	for _, s := range []string{"4.7kΩ", "10k", "4.7kOhmz", "62°C/W*x", "-40°C", "-120dBm", "7%3", "0x1F", "1e3V", "1eV", "35nV/√Hz", "1_000V", "5V^2/A*s", "0.5mΩ/sq", "1e999999V", ".5V", "5.V", "4k7", "3s^-1", "√", "5√", "5√Hz^3", "5V/W(", "5°", "5mdegC", "1V·", "9dB/m", "1PiB", "2m²/s³"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		a, n, err := ScanLiteral(src)
		if err != nil {
			var e *LiteralError
			if !errors.As(err, &e) || n != 0 || e.Len < 1 || e.Len > len(src) || e.Msg == "" || e.Hint == "" || a != (Quantity{}) {
				t.Fatalf("%q: %d bytes, %#v", src, n, err)
			}
			return
		}
		if n < 0 || n > len(src) || n == 0 && a != (Quantity{}) {
			t.Fatalf("%q: %d bytes, %v", src, n, a)
		}
		if n == 0 {
			return
		}
		if a.v-a.v != 0 || a.wild() {
			t.Fatalf("%q is %v", src, a.v)
		}
		lit := src[:n]
		// The literal by itself is the same; so is what Parse reads, except
		// that a literal ends where Parse finds an error.
		b, m, err := ScanLiteral(lit)
		if err != nil || m != n || !b.Same(a) {
			t.Fatalf("%q alone: %v, %d bytes, %v", lit, b, m, err)
		}
		c, err := Parse(lit)
		if err != nil || !c.Same(a) || c.String() != a.String() {
			t.Fatalf("%q parsed: %v, %v", lit, c, err)
		}
		for _, id := range LiteralUnits(src) {
			if id.Offset < 0 || id.Offset+len(id.Name) > n || lit[id.Offset:id.Offset+len(id.Name)] != id.Name {
				t.Fatalf("%q: no %q at %d", lit, id.Name, id.Offset)
			}
		}
		readBack(t, a)
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"4.7 kΩ", "-40 °C", "5 %", "12", "1 W/(m·K)", "3 1/s²", "−3 dB", "1e-300 in", "4k7", "4,7 V", "5 V V", "0 dBu", "7 kg·m^1.5/(s²·√A)", "1 (m)", "1 ((m)/(s))", "1 1/(1/(1/s))"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, err := Parse(s)
		if err != nil {
			var e *Error
			if !errors.As(err, &e) || e.Msg == "" || a != (Quantity{}) {
				t.Fatalf("%q: %#v", s, err)
			}
			if utf8.ValidString(s) && !utf8.ValidString(e.Error()) {
				t.Fatalf("%q: broken text %q", s, e.Error())
			}
			return
		}
		readBack(t, a)
	})
}

func readBack(t *testing.T, a Quantity) {
	text := a.Text(0)
	b, err := Parse(text)
	if err != nil || !b.Same(a) {
		t.Fatalf("%v in full is %q, read back %v, %v", a.v, text, b.v, err)
	}
	if short := a.String(); strings.HasPrefix(short, "1000 m") && a.u == nil {
		t.Fatalf("%v is written %q", a.v, short)
	}
}

func FuzzParseRKM(f *testing.F) {
	for _, s := range []string{"4k7", "R47", "100nJ", "2R2", "4p7C", "1M0", "µ47"} {
		f.Add(s, "Ω")
		f.Add(s, "F")
	}
	f.Fuzz(func(t *testing.T, code, unit string) {
		a, err := ParseRKM(code, unit)
		if err != nil {
			if err.Error() == "" || a != (Quantity{}) {
				t.Fatalf("%q %q: %#v", code, unit, err)
			}
			return
		}
		readBack(t, Nominal(a))
	})
}
