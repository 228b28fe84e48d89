package render

import (
	"slices"

	"ohmwright/kernel/note"
)

// bundleWidth is where the text of a bundle is wrapped: front ends show it
// in consoles, whose width is not known here.
const bundleWidth = 100

// Bundle is one statement for Jupyter: text/plain, text/html with TeX, and
// text/latex.
// An item that shows nothing (Quiet) has no bundle, nil.
func Bundle(item note.Item) map[string]string {
	return bundle(statements([]note.Item{item}))
}

// GroupBundle is several statements in one bundle, aligned with each other.
// Of texts, and nothing else, it is text/plain and text/markdown.
func GroupBundle(items []note.Item) map[string]string {
	if len(items) > 0 && !slices.ContainsFunc(items, func(it note.Item) bool { return !isProse(it) }) {
		return MarkdownBundle(items)
	}
	return bundle(statements(items))
}

// MarkdownBundle is GroupBundle as text/plain and text/markdown whatever the
// items are, for what is to stand in one display with a text.
func MarkdownBundle(items []note.Item) map[string]string {
	if len(statements(items)) == 0 {
		return nil
	}
	return map[string]string{
		"text/plain":    Text(items, Options{Width: bundleWidth}),
		"text/markdown": Markdown(items),
	}
}

// Bundles is what a cell shows, a bundle for each display: its results and
// texts, and behind them the pictures of what they show.
func Bundles(items []note.Item, picture func(note.Item) map[string]string) (list []map[string]string) {
	for _, d := range Displays(items) {
		list = append(list, GroupBundle(d))
		for _, it := range d {
			if p := picture(it); p != nil {
				list = append(list, p)
			}
		}
	}
	return list
}

// Displays cuts what a cell shows into displays: texts are such of their own,
// as they have other forms than all else.
func Displays(items []note.Item) (list [][]note.Item) {
	for from := 0; from < len(items); {
		to := from + 1
		for to < len(items) && isProse(items[to]) == isProse(items[from]) {
			to++
		}
		if len(statements(items[from:to])) > 0 {
			list = append(list, items[from:to])
		}
		from = to
	}
	return list
}

func isProse(it note.Item) bool {
	_, ok := it.(*note.Prose)
	return ok
}

func bundle(ss []statement) map[string]string {
	if len(ss) == 0 {
		return nil
	}
	return map[string]string{
		"text/plain": textOf(ss, Options{Width: bundleWidth}),
		"text/html":  htmlOf(ss, TeX),
		"text/latex": latexOf(ss),
	}
}
