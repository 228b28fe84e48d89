package thermal

import (
	"fmt"
	"strings"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Heat is power that is made at a point of a network.
type Heat struct {
	At    string         // the point: "junction"
	Power units.Quantity // W
}

// Held is a point of a network whose temperature is given, such as the air.
type Held struct {
	Name        string         // the point: "air"
	Temperature units.Quantity // °C
}

// NetworkInputs are the arguments of Network.
type NetworkInputs struct {
	Paths []Segment // resistances between two points, in any order and direction
	Heats []Heat    // where heat is made; several at one point add
	Held  []Held    // at least one
}

// Point is a point of a network.
type Point struct {
	Name        string
	Temperature units.Quantity // °C
}

// Flow is the heat that takes one path of a network.
type Flow struct {
	From  string
	To    string
	Power units.Quantity // W; below zero where it goes from To to From
}

// NetworkResult is what Network finds.
type NetworkResult struct {
	Points []Point // every point, as the paths name them first
	Flows  []Flow  // through every path, in the order given
}

// Network computes the temperature of every point of a network of thermal
// resistances, in series, in parallel or both: a board and a heat sink with
// temperatures of their own, several parts, a housing with air inside.
//
//	sum over the paths at a point of (temperature − temperature at the other end)/resistance = heat made at the point
//
// for each point that is not held, solved together.
//
// Arguments: Paths, each between two different points with names, with a
// resistance above zero, K/W; Heats, each at a point that some path ends at
// and that is not held, W, not below zero; Held, °C, each of a point that some
// path ends at. It is an error outside of that, and where no path leads from a
// point to a held one: its heat would have nowhere to go. As in a Chain, no
// point is called "top": a ψJT is no path.
//
//	n, err := thermal.Network(thermal.NetworkInputs{
//		Paths: []thermal.Segment{
//			{"junction", "case", 2K/W}, {"case", "sink", 1K/W}, {"sink", "air", 12K/W},
//			{"junction", "board", 8K/W}, {"board", "air", 30K/W},
//		},
//		Heats: []thermal.Heat{{"junction", 3W}},
//		Held:  []thermal.Held{{"air", 50°C}},
//	})
//
// Holds in the steady state, for resistances that do not depend on the
// temperatures.
//
// Source: conservation of heat at every point (Kirchhoff's rule); definition
// of thermal resistance (JEDEC JESD51-1).
//
// Caution: θJA is a whole network already, and no path of one.
func Network(in NetworkInputs) (NetworkResult, error) {
	const function = "thermal.Network"
	names, err := in.check(function)
	if err != nil {
		return NetworkResult{}, err
	}
	index := map[string]int{}
	for i, name := range names {
		index[name] = i
	}
	reference := in.Held[0].Temperature
	rises := make([]units.Quantity, len(names)) // above reference, K
	held := make([]bool, len(names))
	for _, h := range in.Held {
		held[index[h.Name]] = true
		rises[index[h.Name]] = h.Temperature.Sub(reference)
	}
	var free []int // the points to be found
	row := make([]int, len(names))
	for i := range names {
		if !held[i] {
			row[i] = len(free)
			free = append(free, i)
		}
	}
	m := newMesh(len(free))
	for _, h := range in.Heats {
		i := row[index[h.At]]
		m.heats[i] = m.heats[i].Add(h.Power)
	}
	for _, path := range in.Paths {
		conductance := units.Number(1).Div(path.Resistance)
		from, to := index[path.From], index[path.To]
		switch {
		case held[from] && held[to]:
		case held[to]:
			m.tie(row[from], conductance, rises[to])
		case held[from]:
			m.tie(row[to], conductance, rises[from])
		default:
			m.join(row[from], row[to], conductance)
		}
	}
	for k, rise := range m.solve() {
		rises[free[k]] = rise
	}
	r := NetworkResult{Points: make([]Point, len(names)), Flows: make([]Flow, len(in.Paths))}
	for i, name := range names {
		r.Points[i] = Point{Name: name, Temperature: reference.Add(rises[i])}
	}
	for _, h := range in.Held {
		r.Points[index[h.Name]].Temperature = h.Temperature // as given, without a detour
	}
	for i, path := range in.Paths {
		power := rises[index[path.From]].Sub(rises[index[path.To]]).Div(path.Resistance)
		r.Flows[i] = Flow{From: path.From, To: path.To, Power: power}
	}
	return r, nil
}

// check returns the names of the points, as the paths name them first.
func (in NetworkInputs) check(function string) ([]string, error) {
	if len(in.Paths) == 0 {
		return nil, fmt.Errorf("%s: Paths is empty; a network needs at least one: write a path from the junction to the air", function)
	}
	if len(in.Held) == 0 {
		return nil, fmt.Errorf("%s: Held is empty; some point must have a given temperature: write that of the air", function)
	}
	var names []string
	joined := map[string][]string{} // the points at the other ends of each point's paths
	for i, path := range in.Paths {
		if err := path.check(function, fmt.Sprintf("path %d", i+1)); err != nil {
			return nil, err
		}
		for _, name := range [2]string{path.From, path.To} {
			if joined[name] == nil {
				names = append(names, name)
			}
		}
		if path.From == path.To {
			return nil, fmt.Errorf("%s: path %d goes from %s to itself: write the point at its other end", function, i+1, path.From)
		}
		joined[path.From] = append(joined[path.From], path.To)
		joined[path.To] = append(joined[path.To], path.From)
	}
	held := map[string]bool{}
	for i, h := range in.Held {
		switch {
		case joined[h.Name] == nil:
			return nil, fmt.Errorf("%s: no path ends at %q, which is held; the points are %s: use one of these names", function, h.Name, strings.Join(names, ", "))
		case held[h.Name]:
			return nil, fmt.Errorf("%s: %s is held twice: give its temperature once", function, h.Name)
		}
		held[h.Name] = true
		if err := argument.First(function, argument.Temperature(fmt.Sprintf("the temperature of %s", in.Held[i].Name), h.Temperature)); err != nil {
			return nil, err
		}
	}
	for _, h := range in.Heats {
		switch {
		case joined[h.At] == nil:
			return nil, fmt.Errorf("%s: no path ends at %q, where heat is made; the points are %s: use one of these names", function, h.At, strings.Join(names, ", "))
		case held[h.At]:
			return nil, fmt.Errorf("%s: heat is made at %s, whose temperature is held: it would change nothing; give it another point and a path to %s", function, h.At, h.At)
		}
		if err := argument.First(function, argument.Power.NotNegative(fmt.Sprintf("the power at %s", h.At), h.Power)); err != nil {
			return nil, err
		}
	}
	// What the held points reach.
	reached := map[string]bool{}
	next := []string{}
	for _, h := range in.Held {
		next = append(next, h.Name)
	}
	for len(next) > 0 {
		name := next[0]
		next = next[1:]
		if !reached[name] {
			reached[name] = true
			next = append(next, joined[name]...)
		}
	}
	for _, name := range names {
		if !reached[name] {
			return nil, fmt.Errorf("%s: no path leads from %s to %s: its heat has nowhere to go; write the path that joins them", function, name, in.Held[0].Name)
		}
	}
	return names, nil
}
