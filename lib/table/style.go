package table

import (
	"fmt"
	"regexp"
	"strings"
)

var (
	decimalComma = regexp.MustCompile(`^[-+−]?(\d+),(\d+)`)
	decimalPoint = regexp.MustCompile(`^[-+−]?\d*\.\d`)
)

// style finds out how a file with semicolons between its columns writes
// decimals, and turns commas into points. It refuses what could be read in two
// ways: 1,234 is a decimal only in a file that shows that it has decimal
// commas.
type style struct {
	shown     bool  // a comma that cannot stand between thousands
	doubtful  []int // the first cell that could be either: row, column
	withComma []int // the first cells of either kind
	withPoint []int
}

func (s *style) see(row, col int, text string) {
	m := decimalComma.FindStringSubmatch(text)
	switch {
	case m != nil:
		if s.withComma == nil {
			s.withComma = []int{row, col}
		}
		if len(m[1]) > 3 || m[1][0] == '0' || len(m[2]) != 3 {
			s.shown = true
		} else if s.doubtful == nil {
			s.doubtful = []int{row, col}
		}
	case s.withPoint == nil && decimalPoint.MatchString(text):
		s.withPoint = []int{row, col}
	}
}

// decimals puts decimal points into the records behind the heading.
func decimals(name string, columns []column, records []record) error {
	var s style
	for i, r := range records {
		for k, text := range r.cells {
			s.see(i, k, text)
		}
	}
	place := func(at []int) string {
		return placeOf(name, records[at[0]].line, at[1], columns[at[1]].name)
	}
	text := func(at []int) string { return quoted(records[at[0]].cells[at[1]]) }
	switch {
	case s.withComma == nil:
		return nil
	case s.withPoint != nil:
		return fmt.Errorf("%s: %s has a decimal point and %s, in line %d, a decimal comma: write all decimals with a point", place(s.withPoint), text(s.withPoint), text(s.withComma), records[s.withComma[0]].line)
	case s.doubtful != nil && !s.shown:
		return fmt.Errorf("%s: %s could be a decimal or a thousand: write all decimals with a point and thousands without a sign between", place(s.doubtful), text(s.doubtful))
	}
	for _, r := range records {
		for k, text := range r.cells {
			if decimalComma.MatchString(text) {
				r.cells[k] = strings.Replace(text, ",", ".", 1)
			}
		}
	}
	return nil
}

func placeOf(name string, line, col int, heading string) string {
	if heading == "" {
		return fmt.Sprintf("%s, line %d, column %d", name, line, col+1)
	}
	return fmt.Sprintf("%s, line %d, column %d (%s)", name, line, col+1, heading)
}
