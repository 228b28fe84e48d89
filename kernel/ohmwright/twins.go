package main

import (
	"fmt"
	"maps"
	"slices"

	"ohmwright/kernel/note"
)

// twins marks the parts whose reference stands in a note before this one, too;
// in one note they say so themselves. first has where each reference stands.
func twins(results []*note.Result, name string, first map[string]string) []*note.Result {
	results = slices.Clone(results)
	before := maps.Clone(first)
	for i, r := range results {
		for k, it := range r.Items {
			p, ok := it.(*note.Part)
			if !ok {
				continue
			}
			at := before[p.Reference]
			if at == "" {
				first[p.Reference] = fmt.Sprintf("%s, %s, line %d", name, r.Label, p.Line)
				continue
			}
			marked, again := *results[i], *p
			again.Twice = at
			marked.Items = slices.Clone(marked.Items)
			marked.Items[k] = &again
			results[i] = &marked
		}
	}
	return results
}
