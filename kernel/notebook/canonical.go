package notebook

import (
	"slices"
	"strings"
)

// The functions here give a value the form in which the format's reference
// writer (nbformat's v4/rwbase.py and v4/nbjson.py) puts it into a file: keys
// sorted, texts that may have several lines cut into them. They build new nodes
// and share what needs no change; no node is altered.

// canonical sorts keys and respells numbers at every level.
func canonical(n *node) *node {
	switch n.kind {
	case number:
		return &node{kind: number, str: spellNumber(n.str)}
	case array:
		out := &node{kind: array, items: make([]*node, len(n.items))}
		for i, item := range n.items {
			out.items[i] = canonical(item)
		}
		return out
	case object:
		return canonicalObject(n, func(_ string, value *node) *node { return canonical(value) })
	}
	return n
}

// canonicalObject sorts the members of an object and gives each the value that
// form returns for it; nil leaves the member out.
func canonicalObject(n *node, form func(name string, value *node) *node) *node {
	if n.kind != object {
		return canonical(n)
	}
	out := &node{kind: object}
	for _, m := range n.members {
		if value := form(m.name, m.value); value != nil {
			out.members = append(out.members, &member{name: m.name, at: -1, value: value})
		}
	}
	slices.SortFunc(out.members, func(a, b *member) int { return strings.Compare(a.name, b.name) })
	return out
}

// canonicalNotebook is the form of a whole file.
func canonicalNotebook(n *node) *node {
	return canonicalObject(n, func(name string, value *node) *node {
		switch name {
		case "cells":
			out := &node{kind: array}
			for _, cell := range value.items {
				out.items = append(out.items, canonicalCell(cell))
			}
			return out
		case "metadata":
			return canonicalWithout(value, "orig_nbformat", "orig_nbformat_minor", "signature")
		}
		return canonical(value)
	})
}

func canonicalCell(n *node) *node {
	code := n.get("cell_type").text() == "code"
	return canonicalObject(n, func(name string, value *node) *node {
		switch {
		case name == "source":
			return linesOf(value)
		case name == "metadata":
			return canonicalWithout(value, "trusted")
		case name == "attachments":
			return canonicalObject(value, func(_ string, bundle *node) *node { return canonicalBundle(bundle) })
		case name == "outputs" && code:
			out := &node{kind: array}
			for _, output := range value.items {
				out.items = append(out.items, canonicalOutput(output))
			}
			return out
		}
		return canonical(value)
	})
}

func canonicalOutput(n *node) *node {
	kind := n.get("output_type").text()
	rich := kind == displayData || kind == executeResult
	return canonicalObject(n, func(name string, value *node) *node {
		switch {
		case name == "transient": // belongs to messages; a file that has it is not valid
			return nil
		case name == "data" && rich:
			return canonicalBundle(value)
		case name == "text" && kind == stream:
			return linesOf(value)
		case name == "text" && !rich:
			return canonical(joined(value))
		}
		return canonical(value)
	})
}

// canonicalBundle is the form of values keyed by their media type.
func canonicalBundle(n *node) *node {
	return canonicalObject(n, func(mime string, value *node) *node {
		if isJSON(mime) {
			return canonical(value)
		}
		if isLined(mime) {
			return linesOf(value)
		}
		return canonical(joined(value))
	})
}

func canonicalWithout(n *node, names ...string) *node {
	return canonicalObject(n, func(name string, value *node) *node {
		if slices.Contains(names, name) {
			return nil
		}
		return canonical(value)
	})
}

// isJSON says whether the values of a media type are JSON, not text.
func isJSON(mime string) bool {
	return mime == "application/json" || strings.HasPrefix(mime, "application/") && strings.HasSuffix(mime, "+json")
}

// isLined says whether the values of a media type are cut into lines.
func isLined(mime string) bool {
	return strings.HasPrefix(mime, "text/") || mime == "application/javascript" || mime == "image/svg+xml"
}

// joined makes one text of a list of texts and leaves all else alone.
func joined(n *node) *node {
	if n.kind != array {
		return n
	}
	var b strings.Builder
	for _, item := range n.items {
		if item.kind != text {
			return n
		}
		b.WriteString(item.str)
	}
	return textNode(joinHalves(b.String()))
}

// linesOf makes a list of lines of a text or of a list of texts.
func linesOf(n *node) *node {
	whole := joined(n)
	if whole.kind != text {
		return canonical(n)
	}
	return textList(splitLines(whole.str))
}

func textNode(s string) *node { return &node{kind: text, str: s} }

func textList(list []string) *node {
	out := &node{kind: array}
	for _, s := range list {
		out.items = append(out.items, textNode(s))
	}
	return out
}

// text gives a text, also one that is written as a list; "" for anything else.
func (n *node) text() string {
	if n == nil {
		return ""
	}
	if n = joined(n); n.kind != text {
		return ""
	}
	return n.str
}
