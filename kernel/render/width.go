package render

import (
	"strings"

	"github.com/mattn/go-runewidth"

	"ohmwright/units"
)

// cells measures text as a terminal sets it. Ambiguous characters (Ω, °, µ)
// count one: the package's own setting would follow the locale, and the same
// note must give the same text everywhere.
func cells(s string) int {
	c := runewidth.Condition{}
	return c.StringWidth(s)
}

func pad(s string, width int) string {
	if w := cells(s); w < width {
		return s + strings.Repeat(" ", width-w)
	}
	return s
}

// wrap breaks text at spaces into lines of at most width; 0 does not wrap. A
// word that is longer stays whole.
func wrap(s string, width int) []string {
	if width <= 0 || cells(s) <= width {
		return []string{s}
	}
	var lines []string
	line := ""
	for _, w := range unbroken(s) {
		switch {
		case line == "" && w == "" && len(lines) > 0: // a gap at the break
		case line == "":
			line = w
		case cells(line)+1+cells(w) <= width:
			line += " " + w
		default:
			lines = append(lines, strings.TrimRight(line, " "))
			line = w
		}
	}
	return append(lines, line)
}

// unbroken splits text at spaces, but not between a number and its unit:
// somebody who writes "at 85 °C" in a comment does not want 85 at the end of
// one line and °C on the next.
func unbroken(s string) []string {
	var out []string
	for _, w := range strings.Split(s, " ") {
		if n := len(out); n > 0 && endsInNumber(out[n-1]) && isUnit(strings.TrimRight(w, ".,;:)")) {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInNumber(w string) bool {
	return w != "" && w[len(w)-1] >= '0' && w[len(w)-1] <= '9'
}

// isUnit: the words "in", "a", "d" and the like are units and are words, so
// what is in small letters needs more than one to count.
func isUnit(w string) bool {
	if w == "" || w == "in" || w == "min" || len(w) == 1 && w >= "a" {
		return false
	}
	_, err := units.Parse("1 " + w)
	return err == nil
}
