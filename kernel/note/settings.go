package note

import (
	"ohmwright/kernel/cell"
	"ohmwright/units"
)

// configure takes the settings that the cells make for the whole note. Where
// they changed, everything that spreads is computed again.
func (n *Note) configure(errs map[*node][]*cell.Error) {
	var o units.StudyOptions
	first := map[string]*node{}
	for _, c := range n.cells {
		for _, s := range c.parsed.Settings() {
			if n.owner[s.Name] != nil {
				continue // the note's own name
			}
			if other := first[s.Name]; other != nil {
				where := "twice in " + c.Label
				if other != c {
					where = "here, in " + c.Label + ", and in " + other.Label
				}
				errs[c] = append(errs[c], c.parsed.ErrorAtSetting(s, cell.CodeTwice, s.Name+" is set "+where, "a note has one such setting"))
				continue
			}
			first[s.Name] = c
			switch s.Name {
			case "Boards":
				o.Boards = int(s.Number)
			case "PartsAreNormal":
				o.Parts = units.NormalShape(s.Number)
			}
		}
	}
	study := units.NewStudy(o)
	same := study.Options() == n.study.Options()
	if same && n.study.Len() <= 2*n.placed+forgotten {
		return
	}
	n.study, n.placed = study, 0
	for _, c := range n.all() {
		if c.spreads || !same && !c.ok {
			c.settled = false
		}
	}
}

// forgotten is how many sources that no cell makes any more a study may hold,
// beside as many as it has: edits leave them behind.
const forgotten = 200
