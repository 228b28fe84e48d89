package jupyter

import (
	"sort"
	"strings"
	"unicode"
	"unicode/utf8"

	"ohmwright/kernel/cell"
)

// Complete offers the names that are in scope.
func (e *Engine) Complete(code string, at int) Completion {
	e.mu.Lock()
	defer e.mu.Unlock()
	start := at
	for start > 0 {
		r, n := utf8.DecodeLastRuneInString(code[:start])
		if r != '_' && !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			break
		}
		start -= n
	}
	prefix := code[start:at]
	set := map[string]bool{}
	add := func(names []string) {
		for _, n := range names {
			if strings.HasPrefix(n, prefix) {
				set[n] = true
			}
		}
	}
	if start > 0 && code[start-1] == '.' {
		end := start - 1
		begin := end
		for begin > 0 && (code[begin-1] == '_' || unicode.IsLetter(rune(code[begin-1])) || unicode.IsDigit(rune(code[begin-1]))) {
			begin--
		}
		if k := e.world.Package(code[begin:end]); k != nil {
			for _, n := range k.Scope().Names() {
				if o := k.Scope().Lookup(n); o.Exported() && e.world.Refused(o) == nil {
					add([]string{n})
				}
			}
		}
	} else {
		for _, id := range e.order {
			add(e.note.Names(e.code[id]))
		}
		add(e.world.BuiltinNames())
		add(e.world.PackageNames())
	}
	matches := make([]string, 0, len(set))
	for n := range set {
		matches = append(matches, n)
	}
	sort.Strings(matches)
	return Completion{Matches: matches, Start: start, End: at}
}

// IsComplete tells a console whether a cell may still go on.
func (e *Engine) IsComplete(code string) (status, indent string) {
	switch errs := e.note.Syntax(code); {
	case len(errs) == 0:
		return "complete", ""
	case cell.Unfinished(errs):
		return "incomplete", "\t"
	}
	return "invalid", ""
}
