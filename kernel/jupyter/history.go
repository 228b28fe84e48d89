package jupyter

import (
	"regexp"
	"strings"
)

// The history is bounded: 10,000 runs of a cell must not fill the memory.
const (
	historyEntries = 10000
	historyBytes   = 8 << 20
)

// sessionNumber of this run of the kernel in history replies. Earlier runs are
// not kept.
const sessionNumber = 1

type historyEntry struct {
	line   int
	input  string
	output string // text of the result, if it had one
}

type history struct {
	entries []historyEntry
	size    int
}

func (h *history) add(line int, input string) {
	h.entries = append(h.entries, historyEntry{line: line, input: input})
	h.size += len(input)
	for len(h.entries) > historyEntries || h.size > historyBytes && len(h.entries) > 1 {
		h.size -= len(h.entries[0].input) + len(h.entries[0].output)
		h.entries[0] = historyEntry{}
		h.entries = h.entries[1:]
	}
}

// result adds what the latest entry gave.
func (h *history) result(line int, output string) {
	if n := len(h.entries); n > 0 && h.entries[n-1].line == line {
		h.size += len(output) - len(h.entries[n-1].output)
		h.entries[n-1].output = output
	}
}

// historyRequest is the content of history_request.
type historyRequest struct {
	Output  bool   `json:"output"`
	Access  string `json:"hist_access_type"`
	Session int    `json:"session"`
	Start   int    `json:"start"`
	Stop    *int   `json:"stop"`
	N       *int   `json:"n"`
	Pattern string `json:"pattern"`
	Unique  bool   `json:"unique"`
}

// find answers a request with rows [session, line, input or [input, output]].
func (h *history) find(q historyRequest) []any {
	var found []historyEntry
	switch q.Access {
	case "range": // session 0 is this one; negative ones are earlier
		for _, e := range h.entries {
			if (q.Session == 0 || q.Session == sessionNumber) && e.line >= q.Start && (q.Stop == nil || e.line < *q.Stop) {
				found = append(found, e)
			}
		}
	case "search":
		found = lastN(h.search(q.Pattern, q.Unique), q.N)
	case "tail":
		found = lastN(h.entries, q.N)
	}
	rows := make([]any, 0, len(found))
	for _, e := range found {
		var text any = e.input
		if q.Output {
			var output any
			if e.output != "" {
				output = e.output
			}
			text = []any{e.input, output}
		}
		rows = append(rows, []any{sessionNumber, e.line, text})
	}
	return rows
}

// search finds the inputs that match a pattern with * and ?; unique keeps the
// latest of equal ones.
func (h *history) search(pattern string, unique bool) []historyEntry {
	if pattern == "" {
		pattern = "*"
	}
	quoted := strings.NewReplacer(`\*`, ".*", `\?`, ".").Replace(regexp.QuoteMeta(pattern))
	glob, err := regexp.Compile("(?s)^" + quoted + "$")
	if err != nil { // too long
		return nil
	}
	latest := map[string]int{}
	for i, e := range h.entries {
		latest[e.input] = i
	}
	var found []historyEntry
	for i, e := range h.entries {
		if glob.MatchString(e.input) && (!unique || latest[e.input] == i) {
			found = append(found, e)
		}
	}
	return found
}

func lastN(entries []historyEntry, n *int) []historyEntry {
	if n == nil || *n >= len(entries) {
		return entries
	}
	return entries[len(entries)-max(0, *n):]
}
