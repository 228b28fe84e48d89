package drawing

import (
	"encoding/binary"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// Line is a row of a list: references, and what is written beside them.
type Line struct {
	Row        int // of the file, 1-based
	References []string
	Value      string
	Trouble    string // why the references cannot be read, "" if they can
}

// mostParts is more than a board has; a range such as R1-R99999 is a slip.
const mostParts = 20_000

// Read reads a list: a reference, or several, and a value in each row. The
// separator is a tab, a semicolon or a comma; a head may name the columns, else
// references stand first and the value behind them. The text may be UTF-8 or
// UTF-16 with its byte order mark.
func Read(text []byte) ([]Line, error) {
	s, err := decode(text)
	if err != nil {
		return nil, err
	}
	r := csv.NewReader(strings.NewReader(s))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = separator(s), true, -1
	var lines []Line
	ref, val, headed, count := 0, 0, false, 0
	for first := true; ; {
		cells, err := r.Read()
		if err == io.EOF {
			break
		}
		row, _ := r.FieldPos(0)
		if err != nil {
			var bad *csv.ParseError
			if errors.As(err, &bad) {
				return nil, fmt.Errorf("row %d: %v: a quote is not closed", bad.StartLine, bad.Err)
			}
			return nil, err
		}
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		if strings.Join(cells, "") == "" {
			continue
		}
		if first {
			first = false
			if ref, val, headed, err = head(cells); err != nil {
				return nil, fmt.Errorf("row %d: %w", row, err)
			} else if headed {
				continue
			}
		}
		line := Line{Row: row}
		at := func(i int) string {
			if i < len(cells) {
				return cells[i]
			}
			return ""
		}
		refs := at(ref)
		if headed {
			line.Value = at(val)
		} else {
			n := 1
			for n < len(cells)-1 && allReferences(cells[n]) {
				refs += " " + cells[n]
				n++
			}
			line.Value = at(n)
		}
		if line.References, err = references(refs, mostParts-count); err != nil {
			line.Trouble = err.Error()
		}
		count += len(line.References)
		lines = append(lines, line)
	}
	if len(lines) == 0 {
		return nil, errors.New("the list has no part")
	}
	return lines, nil
}

// decode makes text of the bytes.
func decode(b []byte) (string, error) {
	var order binary.ByteOrder
	switch {
	case len(b) >= 2 && b[0] == 0xFF && b[1] == 0xFE:
		order = binary.LittleEndian
	case len(b) >= 2 && b[0] == 0xFE && b[1] == 0xFF:
		order = binary.BigEndian
	default:
		s := strings.TrimPrefix(string(b), "\uFEFF")
		if !utf8.ValidString(s) {
			return "", errors.New("the list is neither UTF-8 nor UTF-16 text: export it as UTF-8")
		}
		return s, nil
	}
	var units []uint16
	for i := 2; i+1 < len(b); i += 2 {
		units = append(units, order.Uint16(b[i:]))
	}
	return string(utf16.Decode(units)), nil
}

// separator is what parts the columns: what the first line has outside quotes,
// a tab before a semicolon before a comma, which may stand in numbers.
func separator(s string) rune {
	quoted, found := false, ','
	for _, r := range strings.TrimLeft(s, "\r\n \ufeff") {
		switch {
		case r == '"':
			quoted = !quoted
		case quoted:
		case r == '\n':
			return found
		case r == '\t':
			return '\t'
		case r == ';':
			found = ';'
		}
	}
	return found
}

var (
	referenceHeads = []string{"reference", "references", "ref", "refs", "refdes", "designator", "designators", "reference designator", "part", "parts"}
	valueHeads     = []string{"value", "values", "val"}
)

// head finds the columns in a first row that names them.
func head(cells []string) (ref, val int, ok bool, err error) {
	ref, val = -1, -1
	for i, c := range cells {
		name := strings.ToLower(strings.Trim(c, " #*\"'"))
		if slices.Contains(referenceHeads, name) && ref < 0 {
			ref = i
		}
		if slices.Contains(valueHeads, name) && val < 0 {
			val = i
		}
	}
	switch {
	case ref >= 0 && val >= 0:
		return ref, val, true, nil
	case ref < 0 && val < 0:
		if !allReferences(cells[0]) {
			return 0, 0, false, fmt.Errorf("%q is no reference, and no column is named reference: name the columns reference and value", cut(cells[0]))
		}
		return 0, 1, false, nil
	case val < 0:
		return 0, 0, false, errors.New("no column is named value: name the columns reference and value")
	}
	return 0, 0, false, errors.New("no column is named reference: name the columns reference and value")
}

var one = regexp.MustCompile(`^([A-Za-z]{1,4})([0-9]{1,5})([A-Za-z]?)$`)
var several = regexp.MustCompile(`^([A-Za-z]{1,4})([0-9]{1,5})[-–]([A-Za-z]{0,4})([0-9]{1,5})$`)

func allReferences(cell string) bool {
	_, err := references(cell, mostParts)
	return err == nil
}

// references reads "R1", "R1,R2", "R1 R2", "R1-R4".
func references(text string, most int) ([]string, error) {
	var list []string
	fields := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(", ;\t\r\n", r) })
	if len(fields) == 0 {
		return nil, errors.New("there is no reference")
	}
	for _, f := range fields {
		if one.MatchString(f) {
			list = append(list, f)
			continue
		}
		m := several.FindStringSubmatch(f)
		if m == nil || m[3] != "" && m[3] != m[1] {
			return nil, fmt.Errorf("%q is no reference", cut(f))
		}
		from, _ := strconv.Atoi(m[2]) // at most five digits
		to, _ := strconv.Atoi(m[4])
		if to < from || len(list)+to-from >= most {
			return nil, fmt.Errorf("%q is no range of references", cut(f))
		}
		for n := from; n <= to; n++ {
			list = append(list, m[1]+strconv.Itoa(n))
		}
	}
	if len(list) > most {
		return nil, errors.New("there are more references than a board has")
	}
	return list, nil
}

func cut(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}
