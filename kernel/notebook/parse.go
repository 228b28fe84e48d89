package notebook

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Parse reads the text of a notebook; errors are *[Error].
func Parse(data []byte) (*Notebook, error) {
	n, err := parse(string(data))
	if err != nil {
		return nil, err
	}
	return n, nil
}

func parse(src string) (*Notebook, *Error) {
	if err := checkEncoding(src); err != nil {
		return nil, err
	}
	root, err := parseJSON(src)
	if err != nil {
		return nil, err
	}
	c := checker{src: src}
	n := &Notebook{src: src, root: root}
	if n.minor, err = c.version(root); err != nil {
		return nil, err
	}
	if err := c.objectAt(root, "metadata", "notebook: "); err != nil {
		return nil, err
	}
	list := root.get("cells")
	switch {
	case list == nil:
		return nil, errorAt(src, root.at, "", `not a notebook: it has no "cells"`)
	case list.kind != array:
		return nil, errorAt(src, list.at, "", "cells must be a list, found %v", list.kind)
	}
	ids := map[string]int{}
	for i, cell := range list.items {
		c.cell = i + 1
		if err := c.checkCell(cell, n.minor, ids); err != nil {
			err.Cell = i + 1
			return nil, err
		}
		n.cells = append(n.cells, &Cell{nb: n, n: cell, number: i + 1})
	}
	n.layout = layoutOf(src, root)
	return n, nil
}

// checkEncoding refuses what is not plain UTF-8.
func checkEncoding(src string) *Error {
	const again = "save it as UTF-8 without byte order mark"
	switch {
	case strings.TrimLeft(src, " \t\r\n") == "":
		return &Error{Msg: "the file is empty", Hint: hintTruncated}
	case strings.HasPrefix(src, "\xEF\xBB\xBF"):
		return errorAt(src, 0, again, "the file begins with a byte order mark")
	case strings.HasPrefix(src, "\xFF\xFE"), strings.HasPrefix(src, "\xFE\xFF"):
		return errorAt(src, 0, again, "the file is UTF-16")
	case utf8.ValidString(src):
		return nil
	}
	for at := 0; ; {
		r, size := utf8.DecodeRuneInString(src[at:])
		if r == utf8.RuneError && size <= 1 {
			return errorAt(src, at, again, "the file is not valid UTF-8: byte 0x%02X", src[at])
		}
		at += size
	}
}

// checker holds a JSON tree against the parts of the format that this package
// relies on.
type checker struct {
	src  string
	cell int
}

// version gives the minor version of the format.
func (c checker) version(root *node) (int, *Error) {
	if root.kind != object {
		return 0, errorAt(c.src, root.at, "", "not a notebook: it must be an object, found %v", root.kind)
	}
	major := root.get("nbformat")
	if major == nil {
		return 0, errorAt(c.src, root.at, "", `not a notebook: it has no "nbformat"`)
	}
	version, err := c.whole(major, "nbformat")
	if err != nil {
		return 0, err
	}
	minor := 0
	if m := root.get("nbformat_minor"); m != nil {
		if minor, err = c.whole(m, "nbformat_minor"); err != nil {
			return 0, err
		}
	}
	switch {
	case version < 4:
		return 0, errorAt(c.src, major.at, "convert it with jupyter nbconvert --to notebook --inplace",
			"notebook format %d is too old, 4 is the oldest that can be read", version)
	case version > 4:
		return 0, errorAt(c.src, major.at, "save it as nbformat 4.5",
			"notebook format %d.%d is newer than 4.5, the newest that can be read", version, minor)
	}
	return minor, nil
}

// whole reads a number that counts.
func (c checker) whole(n *node, name string) (int, *Error) {
	if n.kind == number {
		if i, err := strconv.Atoi(n.str); err == nil && i >= 0 {
			return i, nil
		}
		return 0, errorAt(c.src, n.at, "", "%s must be a whole number, found %s", name, quote(n.str))
	}
	return 0, errorAt(c.src, n.at, "", "%s must be a whole number, found %v", name, n.kind)
}

// textAt wants a text, or a list of texts where lines is set. A missing value
// passes.
func (c checker) textAt(n *node, name string, lines bool) *Error {
	switch {
	case n == nil || n.kind == text:
		return nil
	case !lines:
		return errorAt(c.src, n.at, "", "%s must be a text, found %v", name, n.kind)
	case n.kind != array:
		return errorAt(c.src, n.at, "", "%s must be a text or a list of texts, found %v", name, n.kind)
	}
	for _, item := range n.items {
		if item.kind != text {
			return errorAt(c.src, item.at, "", "%s must be a text or a list of texts, found %v in the list", name, item.kind)
		}
	}
	return nil
}

// objectAt wants an object under that key, if the key is there.
func (c checker) objectAt(n *node, name, where string) *Error {
	if value := n.get(name); value != nil && value.kind != object {
		return errorAt(c.src, value.at, "", "%s%s must be an object, found %v", where, name, value.kind)
	}
	return nil
}

func (c checker) checkCell(n *node, minor int, ids map[string]int) *Error {
	if n.kind != object {
		return errorAt(c.src, n.at, "", "a cell must be an object, found %v", n.kind)
	}
	kind := n.get("cell_type")
	if kind == nil {
		return errorAt(c.src, n.at, "", `the cell has no "cell_type"`)
	}
	if err := c.textAt(kind, "cell_type", false); err != nil {
		return err
	}
	if !isCellType(kind.str) && minor <= 5 {
		return errorAt(c.src, kind.at, "", `cell_type must be "code", "markdown" or "raw", found %s`, quote(kind.str))
	}
	if err := c.textAt(n.get("source"), "source", true); err != nil {
		return err
	}
	if err := c.objectAt(n, "metadata", ""); err != nil {
		return err
	}
	if err := c.attachments(n); err != nil {
		return err
	}
	if err := c.id(n, minor, ids); err != nil {
		return err
	}
	if kind.str != "code" {
		return nil
	}
	if count := n.get("execution_count"); count != nil && count.kind != null {
		if _, err := c.whole(count, "execution_count"); err != nil {
			return err
		}
	}
	return c.outputs(n)
}

func isCellType(s string) bool { return s == "code" || s == "markdown" || s == "raw" }

func (c checker) attachments(n *node) *Error {
	if err := c.objectAt(n, "attachments", ""); err != nil {
		return err
	}
	if list := n.get("attachments"); list != nil {
		for _, m := range list.members {
			if err := c.objectAt(list, m.name, "attachment "); err != nil {
				return err
			}
		}
	}
	return nil
}

func (c checker) id(n *node, minor int, ids map[string]int) *Error {
	id := n.get("id")
	if id == nil || minor < 5 {
		return nil
	}
	if err := c.textAt(id, "id", false); err != nil {
		return err
	}
	if first, ok := ids[id.str]; ok {
		return errorAt(c.src, id.at, "give this one another id", "id %s is also that of cell %d", quote(id.str), first)
	}
	ids[id.str] = c.cell
	return nil
}

func (c checker) outputs(n *node) *Error {
	list := n.get("outputs")
	if list == nil {
		return nil
	}
	if list.kind != array {
		return errorAt(c.src, list.at, "", "outputs must be a list, found %v", list.kind)
	}
	for i, output := range list.items {
		where := fmt.Sprintf("output %d: ", i+1)
		if output.kind != object {
			return errorAt(c.src, output.at, "", "%smust be an object, found %v", where, output.kind)
		}
		kind := output.get("output_type")
		if kind == nil {
			return errorAt(c.src, output.at, "", `%sit has no "output_type"`, where)
		}
		if err := c.output(output, kind, where); err != nil {
			return err
		}
	}
	return nil
}

func (c checker) output(n, kind *node, where string) *Error {
	if err := c.textAt(kind, where+"output_type", false); err != nil {
		return err
	}
	if err := c.objectAt(n, "metadata", where); err != nil {
		return err
	}
	switch kind.str {
	case displayData, executeResult:
		return c.objectAt(n, "data", where)
	case stream:
		if err := c.textAt(n.get("name"), where+"name", false); err != nil {
			return err
		}
		return c.textAt(n.get("text"), where+"text", true)
	case errorType:
		for _, name := range []string{"ename", "evalue"} {
			if err := c.textAt(n.get(name), where+name, false); err != nil {
				return err
			}
		}
		if trace := n.get("traceback"); trace != nil && trace.kind != array {
			return errorAt(c.src, trace.at, "", "%straceback must be a list of texts, found %v", where, trace.kind)
		}
		return c.textAt(n.get("traceback"), where+"traceback", true)
	}
	return nil
}
