package report

// renames finds names that are others for the same: a name that went and one
// that came, with the same value, defined in the same way. What is defined
// through a renamed name is looked at afterwards, with the new name in it.
func renames(a, b []*named, at, in map[string]*named) map[string]string {
	found := map[string]string{}
	taken := map[string]bool{}
	for _, o := range a {
		if in[o.name] != nil {
			continue
		}
		best, most := "", 0
		for _, x := range b {
			if at[x.name] != nil || taken[x.name] || x.entry.Form != o.entry.Form || !sameLeaves(o.leaves, x.leaves, o.name, x.name) || differs(o.entry, x.entry, found) {
				continue
			}
			likeness := 1
			if o.entry.Description == x.entry.Description {
				likeness += 2
			}
			if o.entry.Source == x.entry.Source {
				likeness++
			}
			if likeness > most {
				best, most = x.name, likeness
			}
		}
		if best != "" {
			found[o.name], taken[best] = best, true
		}
	}
	return found
}
