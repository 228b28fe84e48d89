package report

import (
	"fmt"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/diff"

	"ohmwright/kernel/note"
)

// ProseChange is a passage of the text between the cells that reads
// differently: words as they stand, those that went and those that came.
type ProseChange struct {
	Words []Words `json:"words"`
}

// Words are some words in a row.
type Words struct {
	Text string `json:"text"`
	Kind string `json:"kind"` // "kept", "gone", "new", or "cut" where words in between are left out
}

// ShownProse are the texts that cells show.
func ShownProse(results []*note.Result) (list []Prose) {
	for _, r := range results {
		for i, it := range r.Items {
			if p, ok := it.(*note.Prose); ok {
				list = append(list, Prose{ID: fmt.Sprintf("%s/%d", r.ID, i), Text: p.Text})
			}
		}
	}
	return list
}

// proseChanges compares texts. One is found again by its words, by its id, or
// as the next of what is left. Where it stands does not matter.
func proseChanges(a, b []Prose) []ProseChange {
	partner := make([]int, len(b))
	used := make([]bool, len(a))
	for i := range partner {
		partner[i] = -1
	}
	words := map[string]string{}
	for _, x := range slices.Concat(a, b) {
		words[x.Text] = lines(x.Text)
	}
	match := func(like func(o, x Prose) bool) {
		for i, x := range b {
			for k, o := range a {
				if partner[i] < 0 && !used[k] && like(o, x) {
					partner[i], used[k] = k, true
				}
			}
		}
	}
	match(func(o, x Prose) bool { return words[o.Text] == words[x.Text] })
	match(func(o, x Prose) bool { return o.ID != "" && o.ID == x.ID })
	match(func(o, x Prose) bool { return o.ID == "" || x.ID == "" }) // a file without ids
	out := []ProseChange{}
	for i, x := range b {
		was := ""
		if partner[i] >= 0 {
			was = a[partner[i]].Text
		}
		if w := wordChanges(was, x.Text); w != nil {
			out = append(out, ProseChange{w})
		}
	}
	for k, o := range a {
		if !used[k] {
			if w := wordChanges(o.Text, ""); w != nil {
				out = append(out, ProseChange{w})
			}
		}
	}
	return out
}

// wordChanges compares texts word by word; nil where they read alike. White
// space is layout.
func wordChanges(a, b string) (list []Words) {
	x, y := lines(a), lines(b)
	if x == y {
		return nil
	}
	patch := string(diff.Diff("a", []byte(x), "b", []byte(y)))
	put := func(kind, word string) {
		if n := len(list); n > 0 && list[n-1].Kind == kind {
			list[n-1].Text += " " + word
			return
		}
		list = append(list, Words{word, kind})
	}
	began := false
	for line := range strings.Lines(patch) {
		line = strings.TrimSuffix(line, "\n")
		switch {
		case strings.HasPrefix(line, "@@"):
			if began || !strings.HasPrefix(line, "@@ -1,") && !strings.HasPrefix(line, "@@ -0,") {
				list = append(list, Words{"…", "cut"})
			}
			began = true
		case !began || line == "":
		case line[0] == ' ':
			put("kept", line[1:])
		case line[0] == '-':
			put("gone", line[1:])
		case line[0] == '+':
			put("new", line[1:])
		}
	}
	return list
}

// lines puts each word on a line of its own.
func lines(s string) string {
	words := strings.Fields(s)
	if len(words) == 0 {
		return ""
	}
	return strings.Join(words, "\n") + "\n"
}
