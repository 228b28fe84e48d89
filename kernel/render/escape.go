package render

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

var htmlEscapes = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")

// escape makes text safe in HTML and XML, as content and in an attribute.
func escape(s string) string { return htmlEscapes.Replace(visible(s)) }

// visible replaces what a terminal or an XML reader would act upon: control
// characters (an escape sequence in a string of the note), characters that
// reverse the direction of the line, and broken UTF-8. Line feeds and tabs stay.
func visible(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			return r
		case unicode.IsControl(r), r >= 0x202a && r <= 0x202e, r >= 0x2066 && r <= 0x2069, r == 0xfffe, r == 0xffff:
			return utf8.RuneError
		}
		return r
	}, s)
}

// Visible is text in which every character is one that shows: see above. For
// whole documents.
func Visible(s string) string { return visible(s) }

// oneLine is visible text without line breaks.
func oneLine(s string) string { return strings.Join(strings.Fields(visible(s)), " ") }

// user escapes text of the user's for HTML in which TeX is looked for: a
// dollar sign or a backslash in it must not open mathematics. The two
// classes are the ones that MathJax 2 and 3 pass over.
func user(s string, as Flavour) string {
	e := escape(s)
	if as == TeX && strings.ContainsAny(s, `$\`) {
		return `<span class="tex2jax_ignore mathjax_ignore">` + e + "</span>"
	}
	return e
}

// MarkdownText escapes text of the user's for Markdown (CommonMark: any
// ASCII punctuation may stand behind a backslash). A dollar sign gets an
// element of its own, which keeps it from opening mathematics where a
// backslash does not.
func MarkdownText(s string) string {
	var b strings.Builder
	s = oneLine(s)
	for _, r := range s {
		if r == '$' {
			b.WriteString("<span>$</span>")
			continue
		}
		if strings.ContainsRune("\\`*_[]<>#|~&", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// MarkdownBlock is MarkdownText at the start of a line or of an item of a list,
// where "1. …", "- …" and "+ …" must not open a list of their own. (A comment
// in front of them would make HTML of the whole line.)
func MarkdownBlock(s string) string {
	t := MarkdownText(s)
	marker := strings.TrimLeft(t, "0123456789")
	if marker != "" && (strings.ContainsRune("+-=", rune(t[0])) || len(marker) < len(t) && (marker[0] == '.' || marker[0] == ')')) {
		return strings.TrimSuffix(t, marker) + `\` + marker
	}
	return t
}
