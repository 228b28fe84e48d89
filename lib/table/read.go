package table

import (
	"crypto/sha256"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"ohmwright/units"
)

// mostBytes is the largest text that is read. A curve with more rows than it
// holds is a recording, and every cell that reads it would be slow.
const mostBytes = 4 << 20

// Text reads a table from text, as the comment of the package describes it.
//
//	t, err := table.Text("load [mA], dropout [mV]\n0, 0\n100, 90\n500, 450")
//	t.At(300mA)   // 270 mV
//
// Argument: the text, one row a line. Result: the table. It is an error where
// the text is no such table; the message says line, column, and what to write.
//
// Source: RFC 4180 for the separation of cells.
func Text(text string) (Table, error) { return Read("the table", text) }

// Read reads a table from the text of a file.
//
//	t, err := table.Read("hold.csv", text)
//	t.Name()   // hold.csv
//
// Arguments: name, for messages; text, what the file holds. Result and errors
// as of Text; it is also an error for more than 4 MB.
//
// Source: RFC 4180 for the separation of cells.
func Read(name, text string) (Table, error) {
	sum := sha256.Sum256([]byte(text))
	records, comma, err := split(name, text)
	if err != nil {
		return Table{}, err
	}
	if len(records) == 0 {
		return Table{}, empty(name)
	}
	columns, err := headings(name, records[0])
	if err != nil {
		return Table{}, err
	}
	head, records := records[0], records[1:]
	for i, r := range records {
		if err := r.fits(name, head, len(columns), comma); err != nil {
			return Table{}, err
		}
		records[i].cells = r.cells[:len(columns)]
	}
	if comma == ';' {
		if err := decimals(name, columns, records); err != nil {
			return Table{}, err
		}
	}
	rows := make([][]units.Quantity, len(records))
	for i, r := range records {
		rows[i] = make([]units.Quantity, len(columns))
		for k, text := range r.cells {
			if text == "" {
				continue // not given: blank
			}
			if rows[i][k], err = columns[k].entry(text); err != nil {
				return Table{}, fmt.Errorf("%s: %w", placeOf(name, r.line, k, columns[k].name), err)
			}
		}
	}
	t, err := build(name, columns, rows, func(row, col int) string {
		return placeOf(name, records[row].line, col, columns[col].name)
	})
	t.hash = fmt.Sprintf("%x", sum[:6])
	if err != nil {
		return Table{}, err
	}
	return t, nil
}

// record is a line of cells, without the space around them.
type record struct {
	line  int
	cells []string
}

// split separates the cells of a text; the first record is the heading.
func split(name, text string) (records []record, comma rune, err error) {
	if len(text) > mostBytes {
		return nil, 0, fmt.Errorf("%s is larger than %d MB: write the rows that the curve needs, some tens of them", name, mostBytes>>20)
	}
	text = strings.TrimPrefix(text, "\ufeff")
	if i := strings.IndexByte(text, 0); i >= 0 || !utf8.ValidString(text) {
		return nil, 0, fmt.Errorf("%s, line %d: this is no text in UTF-8: save the file as CSV in UTF-8", name, badLine(text))
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	comma, err = separator(name, text)
	if err != nil {
		return nil, 0, err
	}
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = comma, '#', -1, true
	for {
		cells, err := r.Read()
		if err == io.EOF {
			return records, comma, nil
		}
		if err != nil {
			line := 0
			var parse *csv.ParseError
			if errors.As(err, &parse) {
				line = parse.StartLine
			}
			return nil, 0, fmt.Errorf("%s, line %d: a quotation mark stands where a cell neither starts nor ends: put both around the whole cell, or leave them out", name, line)
		}
		blank := true
		for i, c := range cells {
			cells[i] = strings.TrimSpace(c)
			blank = blank && cells[i] == ""
		}
		if line, _ := r.FieldPos(0); !blank && !strings.HasPrefix(cells[0], "#") {
			records = append(records, record{line: line, cells: cells})
		}
	}
}

func badLine(text string) int {
	line := 1
	for text != "" {
		r, n := utf8.DecodeRuneInString(text)
		if r == 0 || r == utf8.RuneError && n == 1 {
			break
		}
		if r == '\n' {
			line++
		}
		text = text[n:]
	}
	return line
}

// separator finds what stands between the columns by the heading.
func separator(name, text string) (rune, error) {
	number := 0
	for line := range strings.Lines(text) {
		number++
		line = strings.TrimSpace(line)
		if strings.Trim(line, " \t,;") == "" || strings.HasPrefix(line, "#") {
			continue
		}
		switch {
		case strings.Contains(line, ";"):
			return ';', nil
		case strings.Contains(line, ","):
			return ',', nil
		case strings.Contains(line, "\t"):
			return 0, fmt.Errorf("%s, line %d: the columns are separated by tabs: separate them by commas, or save the file as CSV", name, number)
		}
		return 0, fmt.Errorf("%s, line %d: the heading has one column, and a table needs two: write the input and the output, as in ambient [°C], current [A]", name, number)
	}
	return 0, empty(name)
}

func empty(name string) error {
	return fmt.Errorf("%s is empty: write a heading such as ambient [°C], current [A], and a row of values a line", name)
}

// headings reads the first record.
func headings(name string, r record) ([]column, error) {
	cells := r.cells
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	before := map[string]int{}
	columns := make([]column, len(cells))
	for i, text := range cells {
		c, err := heading(text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", placeOf(name, r.line, i, ""), err)
		}
		fold := strings.ToLower(c.name)
		if k, twice := before[fold]; twice {
			return nil, fmt.Errorf("%s: the heading %s is that of column %d too: give each column a name of its own", placeOf(name, r.line, i, ""), quoted(c.name), k+1)
		}
		before[fold], columns[i] = i, c
	}
	if len(columns) < 2 {
		return nil, fmt.Errorf("%s, line %d: the heading has one column, and a table needs two: write the input and the output, as in ambient [°C], current [A]", name, r.line)
	}
	return columns, nil
}

// fits checks that a row has as many cells as the heading.
func (r record) fits(name string, head record, columns int, comma rune) error {
	n := len(r.cells)
	for n > columns && r.cells[n-1] == "" {
		n--
	}
	switch {
	case n > columns && comma == ',':
		return fmt.Errorf("%s, line %d: the row has %d cells, and the heading in line %d has %d: write decimals with a point, or separate the columns by semicolons", name, r.line, n, head.line, columns)
	case n > columns:
		return fmt.Errorf("%s, line %d: the row has %d cells, and the heading in line %d has %d: give every column a heading", name, r.line, n, head.line, columns)
	case n < columns:
		return fmt.Errorf("%s, line %d: the row has %s, and the heading in line %d has %d: write a %c for every column, with nothing behind it where nothing is known", name, r.line, count(n, "cell"), head.line, columns, comma)
	}
	return nil
}
