package notebook

import (
	"encoding/json"
	"fmt"
	"strconv"
)

// Cell is one cell of a notebook. Its setters change the notebook in memory.
type Cell struct {
	nb     *Notebook
	n      *node
	number int // 1-based
}

// Type is "code", "markdown" or "raw"; a format after 4.5 may know others.
func (c *Cell) Type() string { return valid(c.n.get("cell_type").text()) }

// Number is the cell's place in the notebook, from 1.
func (c *Cell) Number() int { return c.number }

// ID is the cell's id, unique in the notebook; "" when it has none, and always
// below nbformat 4.5, where ids do not exist.
func (c *Cell) ID() string {
	if c.nb.minor < 5 {
		return ""
	}
	return valid(c.n.get("id").text())
}

// Source is the text of the cell.
func (c *Cell) Source() string { return valid(c.n.get("source").text()) }

// Attachments are the files that a text cell brings with it: by name, then by
// media type, the data in base64, but SVG as text.
func (c *Cell) Attachments() map[string]map[string]string {
	var raw map[string]map[string]any
	if json.Unmarshal(rawOf(c.n.get("attachments")), &raw) != nil {
		return nil
	}
	out := map[string]map[string]string{}
	for name, types := range raw {
		out[name] = map[string]string{}
		for kind, data := range types {
			switch d := data.(type) {
			case string:
				out[name][kind] = d
			case []any: // lines
				for _, line := range d {
					s, _ := line.(string)
					out[name][kind] += s
				}
			}
		}
	}
	return out
}

// SetSource replaces the text of the cell. Bytes that are not UTF-8 become U+FFFD.
func (c *Cell) SetSource(source string) {
	source = valid(source)
	if m := c.n.find("source"); m != nil && m.orig != nil && valid(m.orig.text()) == source {
		m.value = m.orig // in whatever way the file cuts it into lines
		return
	}
	c.put("source", linesOf(textNode(source)), source == "")
}

// put sets a value. A key that the cell lacks in the file stays away as long as
// its value would be empty.
func (c *Cell) put(name string, value *node, empty bool) {
	if m := c.n.find(name); empty && c.n.raw != "" && (m == nil || m.orig == nil) {
		c.n.remove(name)
		return
	}
	c.n.set(name, value)
}

// Metadata gives the cell's metadata as JSON, as the file spells it; nil if the
// cell has none.
func (c *Cell) Metadata() json.RawMessage { return rawOf(c.n.get("metadata")) }

// rawOf gives a value's text in the file, or for a new one its canonical text.
func rawOf(n *node) json.RawMessage {
	switch {
	case n == nil:
		return nil
	case n.raw != "":
		return json.RawMessage(n.raw)
	}
	return json.RawMessage(compact(canonical(n)))
}

// Outputs gives what a code cell shows; nothing for other cells.
func (c *Cell) Outputs() []Output {
	list := c.n.get("outputs")
	if list == nil || c.Type() != "code" {
		return nil
	}
	out := make([]Output, len(list.items))
	for i, item := range list.items {
		out[i] = Output{item}
	}
	return out
}

// SetOutputs replaces what a code cell shows. An output that says the same as
// one in the file keeps its spelling there.
func (c *Cell) SetOutputs(outputs []Output) error {
	if c.Type() != "code" {
		return fmt.Errorf("cell %d: a %s cell has no outputs", c.number, c.Type())
	}
	list := &node{kind: array}
	for i, o := range outputs {
		if o.n == nil {
			return fmt.Errorf("cell %d: output %d is empty: make it with DisplayData, Stream or ErrorOutput", c.number, i+1)
		}
		list.items = append(list.items, unspelt(o.n))
	}
	if m := c.n.find("outputs"); m != nil && m.orig != nil {
		keepSpelling(list.items, m.orig.items)
		if sameNodes(list.items, m.orig.items) {
			m.value = m.orig
			return nil
		}
	}
	c.put("outputs", list, len(outputs) == 0)
	return nil
}

// unspelt is a node without the spelling it had where it came from, which may
// be a file with another indent.
func unspelt(n *node) *node {
	return &node{kind: n.kind, str: n.str, items: n.items, members: n.members}
}

// keepSpelling puts, for each new output, the next old one with the same
// content in its place.
func keepSpelling(items, old []*node) {
	contents := make([]string, len(old))
	for i, o := range old {
		contents[i] = Output{o}.content()
	}
	next := 0
	for i, item := range items {
		content := Output{item}.content()
		for k := next; k < len(old); k++ {
			if contents[k] == content {
				items[i], next = old[k], k+1
				break
			}
		}
	}
}

func sameNodes(a, b []*node) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// ExecutionCount is the number shown beside a code cell; nil before it ran.
func (c *Cell) ExecutionCount() *int {
	return countOf(c.n.get("execution_count"))
}

func countOf(n *node) *int {
	if n == nil || n.kind != number {
		return nil
	}
	count, err := strconv.Atoi(n.str)
	if err != nil {
		return nil
	}
	return &count
}

// SetExecutionCount sets the number shown beside a code cell; nil for none.
func (c *Cell) SetExecutionCount(count *int) error {
	if c.Type() != "code" {
		return fmt.Errorf("cell %d: a %s cell has no execution count", c.number, c.Type())
	}
	if count != nil && *count < 0 {
		return fmt.Errorf("cell %d: execution count must not be negative, got %d", c.number, *count)
	}
	if m := c.n.find("execution_count"); m != nil && m.orig != nil && sameCount(countOf(m.orig), count) {
		m.value = m.orig // in the spelling of the file, which may be -0
		return nil
	}
	c.put("execution_count", countNode(count), count == nil)
	return nil
}

func sameCount(a, b *int) bool {
	if a == nil || b == nil {
		return a == b
	}
	return *a == *b
}

func countNode(count *int) *node {
	if count == nil {
		return &node{kind: null}
	}
	return &node{kind: number, str: strconv.Itoa(*count)}
}
