package powertree

import (
	"fmt"
	"strings"

	"ohmwright/lib/argument"
)

// node is a rail in its place: the index of the rail, of the node that feeds
// it (−1 for the source), and of the loads on it.
type node struct {
	rail, from, depth int
	loads             []int
}

// order puts the rails so that each stands behind the one that feeds it,
// with all that hangs on it, in the order in which they are written.
func order(in Inputs) ([]node, error) {
	at := map[string]int{}
	source := -1
	for i, r := range in.Rails {
		if strings.TrimSpace(r.Name) == "" {
			return nil, fmt.Errorf("rail %d has no name: write Name", i+1)
		}
		if first, twice := at[r.Name]; twice {
			return nil, fmt.Errorf("rails %d and %d are both called %s: give each a name of its own", first+1, i+1, r.Name)
		}
		at[r.Name] = i
		switch {
		case r.From != "":
		case source >= 0:
			return nil, fmt.Errorf("rails %s and %s have no From; a tree has one source: write From of one of them", in.Rails[source].Name, r.Name)
		default:
			source = i
		}
	}
	if len(in.Rails) == 0 {
		return nil, fmt.Errorf("Rails is empty: write at least the source, such as {Name: \"input\", Voltage: 24V}")
	}
	for _, r := range in.Rails {
		if _, known := at[r.From]; r.From != "" && !known {
			return nil, fmt.Errorf("rail %s comes from %s, which is no rail; there are %s: write one of them as From", r.Name, r.From, names(in.Rails))
		}
	}
	for _, r := range in.Rails {
		path := []string{r.Name}
		for up := r; up.From != ""; {
			up = in.Rails[at[up.From]]
			first := place(path, up.Name)
			path = append(path, up.Name)
			if first >= 0 {
				return nil, fmt.Errorf("rail %s feeds itself: %s: one of them must come from elsewhere", up.Name, strings.Join(path[first:], " from "))
			}
		}
	}
	loads := map[string][]int{}
	seen := map[string]bool{}
	for i, l := range in.Loads {
		switch _, known := at[l.Rail]; {
		case strings.TrimSpace(l.Name) == "":
			return nil, fmt.Errorf("load %d has no name: write Name", i+1)
		case seen[l.Name]:
			return nil, fmt.Errorf("two loads are called %s: give each a name of its own", l.Name)
		case !known:
			return nil, fmt.Errorf("load %s is on rail %q, which is no rail; there are %s: write one of them as Rail", l.Name, l.Rail, names(in.Rails))
		}
		seen[l.Name] = true
		loads[l.Rail] = append(loads[l.Rail], i)
	}
	var nodes []node
	var place func(rail, from, depth int)
	place = func(rail, from, depth int) {
		mine := len(nodes)
		nodes = append(nodes, node{rail: rail, from: from, depth: depth, loads: loads[in.Rails[rail].Name]})
		for i, r := range in.Rails {
			if r.From == in.Rails[rail].Name {
				place(i, mine, depth+1)
			}
		}
	}
	place(source, -1, 0)
	return nodes, nil
}

func names(rails []Rail) string {
	var list []string
	for _, r := range rails {
		list = append(list, r.Name)
	}
	return strings.Join(list, ", ")
}

// checkModes looks at the modes and at the loads' currents in them.
func checkModes(in Inputs) error {
	if len(in.Modes) == 0 {
		return fmt.Errorf("Modes is empty: write at least one, such as {Name: \"on\"}")
	}
	seen := map[string]bool{}
	for i, m := range in.Modes {
		if strings.TrimSpace(m.Name) == "" {
			return fmt.Errorf("mode %d has no name: write Name", i+1)
		}
		if seen[m.Name] {
			return fmt.Errorf("two modes are called %s: give each a name of its own", m.Name)
		}
		seen[m.Name] = true
	}
	for _, l := range in.Loads {
		if len(l.Currents) != len(in.Modes) {
			return fmt.Errorf("load %s: the number of Currents is %d, that of Modes %d: write one for each mode, in the order of Modes", l.Name, len(l.Currents), len(in.Modes))
		}
		for i, c := range l.Currents {
			if err := argument.Current.NotNegative(fmt.Sprintf("the current of load %s in mode %s", l.Name, in.Modes[i].Name), argument.Current.OrZero(c)); err != nil {
				return err
			}
		}
	}
	return nil
}

// place is where a name stands in a path, −1 if it does not.
func place(path []string, name string) int {
	for i, p := range path {
		if p == name {
			return i
		}
	}
	return -1
}
