package jupyter

import "unicode/utf8"

// The wire counts positions in Unicode code points (since version 5.2), a Core
// in bytes. Both conversions clamp: a front end may send a cursor for text that
// it has changed since.

// byteOffset of the code point at pos.
func byteOffset(code string, pos int) int {
	if pos <= 0 {
		return 0
	}
	n := 0
	for i := range code {
		if n == pos {
			return i
		}
		n++
	}
	return len(code)
}

// codePoint is the position of the code point that byte offset falls into.
func codePoint(code string, offset int) int {
	offset = max(0, min(offset, len(code)))
	for offset > 0 && offset < len(code) && !utf8.RuneStart(code[offset]) {
		offset--
	}
	return utf8.RuneCountInString(code[:offset])
}
