package report

import (
	"fmt"
	"strings"
)

// stateOf says what a reader must know of where the values of a document come
// from: inputs that are not those of the notes, and notes whose stored results
// are of another state than the document.
func stateOf(d *Design) (list []string) {
	if len(d.WhatIf) > 0 {
		parts := "Parts stay as the design as written chose them."
		if d.Redesign {
			parts = "Parts are chosen again for that."
		}
		list = append(list, "What-if: computed with "+strings.Join(d.WhatIf, ", ")+" and not with what the notes say. "+parts)
	}
	for _, n := range d.Notes {
		if len(n.Stored) > 0 {
			list = append(list, "The results stored in "+n.Path+" are not those of this document: "+firstOf(n.Stored, 3)+". This document was computed afresh; ohmwright run stores what it says.")
		}
	}
	return list
}

// firstOf lists the first things and counts the others.
func firstOf(things []string, most int) string {
	if len(things) <= most {
		return strings.Join(things, "; ")
	}
	return fmt.Sprintf("%s; %d more", strings.Join(things[:most], "; "), len(things)-most)
}

// storing says in the list of files how the stored results of a note stand to
// the document.
func (c *Chapter) storing() string {
	if len(c.Stored) > 0 {
		return "the stored results differ"
	}
	return ""
}
