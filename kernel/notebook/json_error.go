package notebook

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

const hintTruncated = "it was cut off; take it from a backup or from version control"

// unexpected says that something else than wanted stands at the current place,
// and names the three mishaps behind nearly all broken notebooks: a file that
// was cut off, a merge conflict, and Python's numbers that are not JSON.
func (p *parser) unexpected(wanted string) *Error {
	if p.pos >= len(p.src) {
		return p.truncated("")
	}
	if rest := p.src[p.pos:]; strings.HasPrefix("true", rest) || strings.HasPrefix("false", rest) || strings.HasPrefix("null", rest) {
		p.pos = len(p.src)
		return p.truncated("in a word")
	}
	line := p.src[strings.LastIndexByte(p.src[:p.pos], '\n')+1:]
	for _, mark := range []string{"<<<<<<<", "=======", ">>>>>>>", "|||||||"} {
		if strings.HasPrefix(line, mark) {
			return errorAt(p.src, p.pos, "resolve it in version control first", "an unresolved merge conflict stands here")
		}
	}
	rest := p.src[p.pos:]
	for _, word := range []string{"NaN", "Infinity", "-Infinity"} {
		if strings.HasPrefix(rest, word) || strings.HasPrefix(p.src[max(p.pos-1, 0):], word) {
			return errorAt(p.src, p.pos, "write null or a text", "%s is not a JSON number", word)
		}
	}
	if len(p.open) == 0 && wanted == "a value" {
		return errorAt(p.src, p.pos, "", "not a notebook: a notebook is JSON and begins with {, this begins with %s", p.found())
	}
	return errorAt(p.src, p.pos, "", "not valid JSON: expected %s, found %s", wanted, p.found())
}

// found quotes what stands at the current place, a word if it is one.
func (p *parser) found() string {
	rest := p.src[p.pos:]
	n := 0
	for n < len(rest) && n < 20 && (rest[n] >= 'a' && rest[n] <= 'z' || rest[n] >= 'A' && rest[n] <= 'Z' || rest[n] >= '0' && rest[n] <= '9') {
		n++
	}
	if n == 0 {
		_, n = utf8.DecodeRuneInString(rest)
	}
	if rest[:n] == `"` {
		return "a double quote"
	}
	return quote(rest[:n])
}

// truncated says that the text ends too early.
func (p *parser) truncated(inside string) *Error {
	where := inside
	if n := len(p.open); n > 0 {
		line, column := position(p.src, p.open[n-1])
		what := "object"
		if p.src[p.open[n-1]] == '[' {
			what = "list"
		}
		if where != "" {
			where += ", "
		}
		where += fmt.Sprintf("inside the %s that begins at line %d, column %d", what, line, column)
	}
	if where == "" {
		where = "before its first value"
	}
	return errorAt(p.src, len(p.src), hintTruncated, "the file ends %s", where)
}
