package render

import "ohmwright/kernel/note"

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
func GroupBundle(items []note.Item) map[string]string {
	return bundle(statements(items))
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
