package notebook

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
)

// The types of output that the format knows.
const (
	displayData   = "display_data"
	executeResult = "execute_result"
	stream        = "stream"
	errorType     = "error"
)

// Output is one thing that a code cell shows. It never changes.
type Output struct{ n *node }

// DisplayData makes an output of one value in several forms, keyed by media
// type: a text (a string, or a []string that is joined) for each, any value that
// encoding/json writes for application/json and application/…+json. Images are
// base64 text. Bytes that are not UTF-8 become U+FFFD. metadata may be nil.
func DisplayData(bundle, metadata map[string]any) (Output, error) {
	return rich(displayData, bundle, metadata)
}

// ExecuteResult makes the output of a cell's last expression; it bears the
// number of the execution, or nil.
func ExecuteResult(count *int, bundle, metadata map[string]any) (Output, error) {
	out, err := rich(executeResult, bundle, metadata)
	if err == nil {
		out.n.set("execution_count", countNode(count))
	}
	return out, err
}

func rich(kind string, bundle, metadata map[string]any) (Output, error) {
	data := &node{kind: object}
	for _, mime := range slices.Sorted(maps.Keys(bundle)) {
		value, err := bundleValue(mime, bundle[mime])
		if err != nil {
			return Output{}, fmt.Errorf("output: value of %s %w", mime, err)
		}
		data.set(valid(mime), value)
	}
	meta := &node{kind: object}
	if len(metadata) > 0 {
		var err error
		if meta, err = nodeOf(metadata); err != nil {
			return Output{}, fmt.Errorf("output: metadata %w", err)
		}
	}
	n := &node{kind: object}
	n.set("output_type", textNode(kind))
	n.set("data", data)
	n.set("metadata", meta)
	return Output{n}, nil
}

func bundleValue(mime string, value any) (*node, error) {
	if isJSON(mime) {
		return nodeOf(value)
	}
	switch v := value.(type) {
	case string:
		return textNode(valid(v)), nil
	case []string:
		return textNode(valid(strings.Join(v, ""))), nil
	}
	return nil, fmt.Errorf("must be a text, not %T: only application/json and application/…+json take other values", value)
}

// nodeOf turns a Go value into JSON.
func nodeOf(value any) (*node, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(value); err != nil {
		return nil, fmt.Errorf("cannot be written as JSON: %w", err)
	}
	n, err := parseJSON(strings.TrimSuffix(valid(b.String()), "\n"))
	if err != nil {
		return nil, fmt.Errorf("cannot be written as JSON: %w", err)
	}
	return n, nil
}

// Stream makes an output of printed text; name is "stdout" or "stderr". Bytes
// that are not UTF-8 become U+FFFD.
func Stream(name, printed string) Output {
	n := &node{kind: object}
	n.set("output_type", textNode(stream))
	n.set("name", textNode(valid(name)))
	n.set("text", textNode(valid(printed)))
	return Output{n}
}

// ErrorOutput makes the output of a cell that failed.
func ErrorOutput(ename, evalue string, traceback []string) Output {
	lines := make([]string, len(traceback))
	for i, line := range traceback {
		lines[i] = valid(line)
	}
	n := &node{kind: object}
	n.set("output_type", textNode(errorType))
	n.set("ename", textNode(valid(ename)))
	n.set("evalue", textNode(valid(evalue)))
	n.set("traceback", textList(lines))
	return Output{n}
}

// Type is "display_data", "execute_result", "stream" or "error".
func (o Output) Type() string { return valid(o.n.get("output_type").text()) }

// Data gives the value for each media type, lines joined; a value that is not a
// text as its JSON, on one line with sorted keys. Nil for a stream and an error.
func (o Output) Data() map[string]string {
	data := o.n.get("data")
	if data == nil {
		return nil
	}
	out := make(map[string]string, len(data.members))
	for _, m := range data.members {
		value := m.value
		if !isJSON(m.name) {
			value = joined(value)
		}
		if value.kind == text && !isJSON(m.name) {
			out[valid(m.name)] = valid(value.str)
		} else {
			out[valid(m.name)] = compact(canonical(value))
		}
	}
	return out
}

// Metadata gives the output's metadata as JSON, nil if it has none.
func (o Output) Metadata() json.RawMessage {
	if m := o.n.get("metadata"); m != nil {
		return json.RawMessage(compact(canonical(m)))
	}
	return nil
}

// Text gives what a stream printed, and its name.
func (o Output) Text() (name, printed string) {
	return valid(o.n.get("name").text()), valid(o.n.get("text").text())
}

// Failure gives the parts of an error.
func (o Output) Failure() (ename, evalue string, traceback []string) {
	if lines := o.n.get("traceback"); lines != nil {
		for _, line := range lines.items {
			traceback = append(traceback, valid(line.text()))
		}
	}
	return valid(o.n.get("ename").text()), valid(o.n.get("evalue").text()), traceback
}

// Equal says whether two outputs have the same content, however written: text
// as one string or in lines, keys in any order, numbers in any spelling.
func (o Output) Equal(other Output) bool {
	return (o.n == nil) == (other.n == nil) && (o.n == nil || o.content() == other.content())
}

func (o Output) content() string { return compact(canonicalOutput(o.n)) }
