package drawing

import (
	"regexp"
	"slices"
	"strings"
)

var (
	// unitApart is a number with what is counted behind it, 3 A.
	unitApart = regexp.MustCompile(`([0-9])\s+(\pL)`)
	wordEnds  = regexp.MustCompile(`[^\pL\pN.%+]+`)
)

// sameWords reports whether one of two texts has all the words of the other,
// whatever their order, their case and the spaces before units.
func sameWords(a, b string) bool {
	x, y := wordsIn(a), wordsIn(b)
	if len(x) > len(y) {
		x, y = y, x
	}
	return len(x) > 0 && !slices.ContainsFunc(x, func(w string) bool { return !slices.Contains(y, w) })
}

// wordsIn lists the words of a text, each once.
func wordsIn(text string) []string {
	text = strings.ReplaceAll(strings.ToLower(text), "μ", "µ") // two characters for micro
	for commaNumber.MatchString(text) {
		text = commaNumber.ReplaceAllString(text, "$1.$2")
	}
	text = unitApart.ReplaceAllString(text, "$1$2")
	var words []string
	for _, w := range wordEnds.Split(text, -1) {
		if w = strings.Trim(w, "."); w != "" {
			words = append(words, w)
		}
	}
	slices.Sort(words)
	return slices.Compact(words)
}
