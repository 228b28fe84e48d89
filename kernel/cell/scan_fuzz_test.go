package cell

import (
	"go/token"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"
)

var scanSeeds = []string{
	"", "x := 5V", "x := 4.7kΩ ± 1% // upper [assumed]", "62°C/W", "-40°C", "35nV/√Hz", "1e3", "0x1F", "1_000", ".5V", "5.V", "5..V", "10k", "7%4", "7 % 4", "+/-", "a +/- b", "±", "5±1",
	"\"5V\"", "`5V\n`", "'5'", "'\\''", "\"open", "`open", "'", "\"\\", "// 5V", "/* 5V */", "/* open", "/", "//", "ƣ", "aƣb", "ƣ5V", "5ƣ", "−·×≤≥≠", "a−5V", "2i", "5Vi", "0b12", "1e", "1e+", "0x", "0xp",
	"import \"fmt\"\nfunc f() {}\ntype T int\nconst c = 1\nx := 1;\ny := 2; z := 3", "func(x int) int { return x }(3)", "func (t T) m() {}", "func (t T) (x)", "func", "type", "import", "const", "}", ")", "]", "(", "{", "[", ";", ";;;",
	"\xff", "5V\xff", "x\x00y", "\r\n", "x := 1 // a\r\ny := 2", "\uFEFFx := 1", "é := 1", "5µF 5μF 5Ω 5Ω", "1V·A", "5V^2", "5m²", "3dB", "0dBm", "5V/s/s", "5%(", "5%a", "5%5",
	"a.5V", "thermal.1%", "f().5V", "a[1].5V", "1.5.5V", "0x1.8V", "5V5", "5Vx", "5V_", "5%_", "5²V", "5V²x", "5e3V", "5e", "5eV", "5E3V", "1_0V", "0b1V", "017V", "5V.x", "5V.5",
}

// FuzzScan holds what every later step builds on: the scan gives Go of the
// same length with the same lines, what is no addition stays as it was typed,
// and the split gives each byte of a segment to one of two texts.
func FuzzScan(f *testing.F) {
	for _, s := range scanSeeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src string) {
		if len(src) > 10_000 || !utf8.ValidString(src) {
			return // Parse refuses what is not UTF-8 before the scan
		}
		s, problems := scan(src)
		if len(s.text) != len(src) {
			t.Fatalf("%d bytes became %d: %q", len(src), len(s.text), s.text)
		}
		sameLines(t, src, s.text)
		for _, p := range problems {
			if p.at < 0 || p.at >= len(src) || p.msg == "" || p.code == "" {
				t.Errorf("a problem outside the text or without words: %+v", p)
			}
		}
		made := make([]bool, len(src))
		for at, l := range s.literals {
			if at != l.start || l.start < 0 || l.end > len(src) || l.end-l.start < len(reserved) {
				t.Fatalf("literal %d is from %d to %d", at, l.start, l.end)
			}
			if got := s.text[l.start:l.end]; got != reserved+strings.Repeat("_", len(got)-len(reserved)) {
				t.Errorf("literal %q became %q", src[l.start:l.end], got)
			}
			if strings.Contains(src[l.start:l.end], "\n") {
				t.Errorf("literal %q goes over the end of its line", src[l.start:l.end])
			}
			if wordBefore(src[:l.start]) {
				t.Errorf("literal %q continues the name before it", src[l.start:l.end])
			}
			if len(problems) == 0 && wordAfter(src[l.end:]) {
				t.Errorf("literal %q ends in the middle of a word, %q follows", src[l.start:l.end], src[l.end:])
			}
			for i := l.start; i < l.end; i++ {
				if made[i] {
					t.Fatalf("two literals at %d", i)
				}
				made[i] = true
			}
		}
		for at := range s.tolerances {
			if !strings.HasPrefix(src[at:], "±") && !strings.HasPrefix(src[at:], "+/-") || !strings.HasPrefix(s.text[at:], "&^") {
				t.Errorf("tolerance at %d of %q", at, src)
			}
		}
		// Letters and signs of Go outside the additions stay.
		if len(problems) == 0 {
			for i := range len(src) {
				if c := src[i]; c < utf8.RuneSelf && !made[i] && s.text[i] != c && !(tolerated(s, i)) {
					t.Errorf("%q at %d became %q", c, i, s.text[i])
				}
			}
		}

		segs, problems := split(s.text)
		for _, p := range problems {
			if p.at < 0 || p.at >= len(src) {
				t.Errorf("a problem outside the text: %+v", p)
			}
		}
		last := 0
		for _, g := range segs {
			if g.start < last || g.end < g.start || g.end > len(src) {
				t.Fatalf("segment from %d to %d behind %d of %d", g.start, g.end, last, len(src))
			}
			last = g.end
		}
		decls, stmts := texts(s.text, segs)
		d, ok1 := strings.CutPrefix(decls, declPrefix)
		st, ok2 := strings.CutPrefix(stmts, stmtPrefix)
		st, ok3 := strings.CutSuffix(st, "\n}")
		if !ok1 || !ok2 || !ok3 || len(d) != len(src) || len(st) != len(src) {
			t.Fatalf("the texts are %d and %d bytes long", len(d), len(st))
		}
		sameLines(t, src, d)
		sameLines(t, src, st)
		for _, g := range segs {
			for i := g.start; i < g.end; i++ {
				inD, inS := d[i] != ' ' && d[i] != '\n', st[i] != ' ' && st[i] != '\n'
				if inD && (!g.decl || g.importing) || inS && (g.decl || g.importing) {
					t.Fatalf("byte %d of a segment (%v) is in the wrong text:\n%s\n%s", i, g.first, d, st)
				}
				if !g.importing && s.text[i] != ' ' && s.text[i] != '\n' && !inD && !inS {
					t.Fatalf("byte %d %q of a segment (%v) is lost:\n%s\n%s", i, s.text[i], g.first, d, st)
				}
			}
		}
	})
}

// tolerated reports whether a byte belongs to a ± or +/-.
func tolerated(s *scanned, i int) bool {
	return s.tolerances[i] || s.tolerances[i-1] || s.tolerances[i-2]
}

func wordBefore(s string) bool {
	r, _ := utf8.DecodeLastRuneInString(s)
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r)
}

func wordAfter(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return r == '_' || unicode.IsLetter(r) || unicode.IsDigit(r)
}

func sameLines(t *testing.T, a, b string) {
	t.Helper()
	for i := range len(a) {
		if (a[i] == '\n') != (b[i] == '\n') {
			t.Fatalf("the lines differ at %d:\n%q\n%q", i, a, b)
		}
	}
}

// FuzzParse reads arbitrary texts as cells: errors stand in the text and do
// not show made names, what is read without error is read the same again, and
// nothing stays behind in the file set.
func FuzzParse(f *testing.F) {
	for _, s := range scanSeeds {
		f.Add(s)
	}
	f.Add(strings.Repeat("{", 1000)) // found by fuzzing: the parser gives up, and its file stayed behind
	f.Fuzz(func(t *testing.T, src string) {
		if len(src) > 10_000 {
			return
		}
		fset := token.NewFileSet()
		p, errs := Parse(fset, "c1", src, nil)
		lines := strings.Split(src, "\n")
		for _, e := range errs {
			if utf8.ValidString(src) && (e.Line < 1 || e.Line > len(lines) || e.Column < 1 || e.Column > utf8.RuneCountInString(lines[e.Line-1])+1) {
				t.Errorf("at %d:%d, outside the text: %s", e.Line, e.Column, e)
			}
			if !strings.Contains(src, reserved) && strings.Contains(e.Error(), reserved) {
				t.Errorf("shows a made name: %s", e)
			}
			if e.Code == "" || e.Msg == "" {
				t.Errorf("an error without code or text: %+v", e)
			}
		}
		again, errs2 := Parse(token.NewFileSet(), "c1", src, nil)
		if strings.Join(p.Defines, " ") != strings.Join(again.Defines, " ") || strings.Join(p.Uses, " ") != strings.Join(again.Uses, " ") || len(errs) != len(errs2) {
			t.Errorf("read twice: %v %v %v, %v %v %v", p.Defines, p.Uses, errs, again.Defines, again.Uses, errs2)
		}
		p.Release()
		fset.Iterate(func(left *token.File) bool {
			t.Errorf("%s stays in the file set", left.Name())
			return true
		})
	})
}
