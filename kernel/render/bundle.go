package render

import "ohmwright/kernel/note"

// bundleWidth is where the text of a bundle is wrapped: front ends show it
// in consoles, whose width is not known here.
const bundleWidth = 100

// Bundle is one statement for Jupyter: text/plain, text/html with TeX, and
// text/latex. It does not say that spread is pending: see [PendingBundle].
// An item that shows nothing (Quiet) has no bundle, nil.
func Bundle(item note.Item) map[string]string {
	return bundle(statements([]note.Item{item}, false))
}

// GroupBundle is several statements in one bundle, aligned with each other.
// Where spread is pending its last line says so.
func GroupBundle(items []note.Item) map[string]string {
	return bundle(statements(items, true))
}

// PendingBundle says that the figures of a cell are nominal, for a face that
// shows each statement by itself; nil if they are not.
func PendingBundle(items []note.Item) map[string]string {
	if !Pending(items) {
		return nil
	}
	return bundle([]statement{{kind: noticeStatement, description: pendingText}})
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
