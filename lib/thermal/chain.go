package thermal

import (
	"fmt"
	"strings"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Segment is one thermal resistance of a chain, between two named points.
type Segment struct {
	From       string         // the hotter point: "junction"
	To         string         // the cooler point: "case"
	Resistance units.Quantity // K/W
}

// ChainInputs are the arguments of Chain.
type ChainInputs struct {
	Reference units.Quantity // temperature of the last point, °C; usually the air
	Power     units.Quantity // through every segment, W
	Segments  []Segment      // from the hottest point to the coolest
}

// Node is a point of a chain.
type Node struct {
	Name        string
	Temperature units.Quantity // °C
	Rise        units.Quantity // above the reference, K
}

// ChainResult is what Chain finds.
type ChainResult struct {
	Total   units.Quantity // of the resistances, K/W
	Rise    units.Quantity // of the hottest point above the reference, K
	Hottest units.Quantity // temperature of the first point, °C
	Nodes   []Node         // every point, hottest first, the reference last
}

// Chain computes the temperature at every point of a chain of thermal
// resistances.
//
//	Total       = resistance₁ + resistance₂ + …
//	Rise        = power · Total
//	Hottest     = reference + Rise
//	temperature = reference + power · (resistances from there to the end)
//
// Arguments: Reference, °C; Power, W, not below zero; Segments, at least one,
// each with a resistance above zero, K/W, and each starting where the one
// before it ends. It is an error outside of that. A point called "top" is
// refused: a figure from junction to top is nearly always ψJT, through which
// the heat does not flow; JunctionFromMeasured takes it. The resistance to a heat
// sink on the top is θJC: call the point "case".
//
//	c, err := thermal.Chain(thermal.ChainInputs{
//		Reference: 40°C, Power: 10W, Segments: []thermal.Segment{
//			{From: "junction", To: "case", Resistance: 1.5K/W},
//			{From: "case", To: "sink", Resistance: 0.5K/W},
//			{From: "sink", To: "air", Resistance: 4K/W},
//		},
//	})
//	// c.Hottest: 100 °C; the case is at 85 °C, the sink at 80 °C
//
// Holds in the steady state, where all of the power goes through every
// segment; what leaves on the way makes the points before it cooler.
//
// Source: definition of thermal resistance (JEDEC JESD51-1); resistances in
// series add (any textbook).
func Chain(in ChainInputs) (ChainResult, error) {
	const function = "thermal.Chain"
	if err := argument.First(function,
		argument.Temperature("Reference", in.Reference),
		argument.Power.NotNegative("Power", in.Power),
	); err != nil {
		return ChainResult{}, err
	}
	if err := checkSegments(function, in.Segments); err != nil {
		return ChainResult{}, err
	}
	reference, power := in.Reference, in.Power
	last := len(in.Segments) - 1
	nodes := make([]Node, len(in.Segments)+1)
	total := in.Segments[last].Resistance
	for i := last; i >= 0; i-- {
		segment := in.Segments[i]
		if i < last {
			total = total.Add(segment.Resistance)
		}
		rise := power.Mul(total)
		temperature := reference.Add(rise)
		nodes[i] = Node{Name: segment.From, Temperature: temperature, Rise: rise}
	}
	nodes[last+1] = Node{Name: in.Segments[last].To, Temperature: reference, Rise: reference.Sub(reference)}
	return ChainResult{
		Total:   total,
		Rise:    nodes[0].Rise,
		Hottest: nodes[0].Temperature,
		Nodes:   nodes,
	}, nil
}

func checkSegments(function string, segments []Segment) error {
	if len(segments) == 0 {
		return fmt.Errorf("%s: Segments is empty; a chain needs at least one: write a segment from the junction to the air", function)
	}
	seen := map[string]bool{}
	for i, segment := range segments {
		if err := segment.check(function, fmt.Sprintf("segment %d", i+1)); err != nil {
			return err
		}
		if i > 0 && segment.From != segments[i-1].To {
			return fmt.Errorf("%s: segment %d starts at %s, but segment %d ends at %s: put the segments in order from the hottest point, without gaps", function, i+1, segment.From, i, segments[i-1].To)
		}
		seen[segment.From] = true
		if seen[segment.To] {
			return fmt.Errorf("%s: segment %d goes back to %s: a chain passes each point once", function, i+1, segment.To)
		}
	}
	return nil
}

// check looks at one resistance by itself: its points have names, it is above
// zero, and it is no characterization parameter.
func (s Segment) check(function, which string) error {
	if strings.TrimSpace(s.From) == "" || strings.TrimSpace(s.To) == "" {
		return fmt.Errorf("%s: %s goes from %q to %q; both points need a name: write what they are, such as junction and case", function, which, s.From, s.To)
	}
	for _, name := range [2]string{s.From, s.To} {
		if notAPoint(name) {
			return fmt.Errorf("%s: %s goes from %s to %s; a junction-to-top figure (ψJT) is no resistance of a path: use JunctionFromMeasured, or θJC and the point \"case\"", function, which, s.From, s.To)
		}
	}
	return argument.First(function, argument.ThermalResistance.Positive(fmt.Sprintf("the resistance from %s to %s", s.From, s.To), s.Resistance))
}

// notAPoint tells names that go with characterization parameters, however
// they are spelt.
func notAPoint(name string) bool {
	name = strings.ToLower(strings.TrimSpace(name))
	return name == "top" || name == "package top" || strings.HasPrefix(name, "ψ") || strings.HasPrefix(name, "psi")
}
