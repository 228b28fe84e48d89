package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CoupledSource is one source of heat on a board that it shares with others.
type CoupledSource struct {
	Name  string           // "regulator"
	Power units.Quantity   // W
	Heats []units.Quantity // what each watt of it makes at every source, itself among them, in their order, K/W
}

// CoupledInputs are the arguments of Coupled.
type CoupledInputs struct {
	Ambient units.Quantity  // °C
	Sources []CoupledSource // at least one
}

// CoupledPoint is what Coupled finds for one source.
type CoupledPoint struct {
	Name        string
	Own         units.Quantity // rise by its own power, K
	FromOthers  units.Quantity // rise by the others, K
	Temperature units.Quantity // °C
	Effective   units.Quantity // resistance to the air that it seems to have, K/W
}

// CoupledResult is what Coupled finds.
type CoupledResult struct {
	Hottest units.Quantity // temperature of the hottest source, °C
	Points  []CoupledPoint // in the order of the sources
}

// Coupled computes the temperatures of several sources of heat that warm each
// other through the board they share, by superposition.
//
//	Own         = power · what a watt of it makes at itself
//	FromOthers  = sum over the others of power · what a watt of them makes here
//	Temperature = ambient + Own + FromOthers
//	Effective   = (Own + FromOthers)/power
//	Hottest     = the highest Temperature
//
// Arguments: Ambient, °C; of each source Power, W, above zero, and Heats, K/W,
// as many as there are sources, that for itself above zero, the others not
// below. It is an error outside of that, and where a source makes a neighbour
// hotter than itself: then the figures stand in the wrong order. Measure them
// by powering one source after the other, or take those of a neighbour from
// Neighbour.
//
//	c, err := thermal.Coupled(thermal.CoupledInputs{Ambient: 50°C, Sources: []thermal.CoupledSource{
//		{"regulator", 0.6W, []Quantity{42K/W, 11K/W}},
//		{"driver", 0.9W, []Quantity{11K/W, 38K/W}},
//	}})
//	// regulator: 85.1 °C, of which 9.9 K come from the driver
//
// Holds where rises grow in proportion to powers; free convection carries
// more away when all are on than when one is, so that the result is some 10 %
// too hot. What A makes at B is, where the heat is conducted, what B makes at
// A: figures that differ by much were not measured alike.
//
// Source: superposition of linear systems; R. Stout, Linear superposition
// speeds thermal modeling, Power Electronics Technology, January 2007.
//
// Caution: θJA of a data sheet was measured with the part alone on its board:
// Effective is what it becomes among others.
func Coupled(in CoupledInputs) (CoupledResult, error) {
	const function = "thermal.Coupled"
	if err := argument.First(function, argument.Temperature("Ambient", in.Ambient)); err != nil {
		return CoupledResult{}, err
	}
	n := len(in.Sources)
	if n == 0 {
		return CoupledResult{}, fmt.Errorf("%s: Sources is empty: write at least one", function)
	}
	for i, s := range in.Sources {
		if err := s.check(function, i, in.Sources); err != nil {
			return CoupledResult{}, err
		}
	}
	points := make([]CoupledPoint, n)
	hottest := in.Ambient
	for i, s := range in.Sources {
		own := s.Power.Mul(s.Heats[i])
		fromOthers := argument.Difference.OrZero(none)
		for j, other := range in.Sources {
			if j != i {
				fromOthers = fromOthers.Add(other.Power.Mul(other.Heats[i]))
			}
		}
		rise := own.Add(fromOthers)
		temperature := in.Ambient.Add(rise)
		hottest = units.Max(hottest, temperature)
		points[i] = CoupledPoint{Name: s.Name, Own: own, FromOthers: fromOthers, Temperature: temperature, Effective: rise.Div(s.Power)}
	}
	return CoupledResult{Hottest: hottest, Points: points}, nil
}

func (s CoupledSource) check(function string, i int, all []CoupledSource) error {
	name := s.Name
	if name == "" {
		return fmt.Errorf("%s: source %d has no name: write what it is, such as regulator", function, i+1)
	}
	if len(s.Heats) != len(all) {
		return fmt.Errorf("%s: %s: the number of Heats is %d, that of Sources %d: write one for each, itself among them", function, name, len(s.Heats), len(all))
	}
	if err := argument.First(function,
		argument.Power.Positive("the power of "+name, s.Power),
		argument.ThermalResistance.Positive("what "+name+" makes at itself", s.Heats[i]),
	); err != nil {
		return err
	}
	for j, heat := range s.Heats {
		if j == i {
			continue
		}
		at := fmt.Sprintf("what %s makes at %s", name, all[j].Name)
		if err := argument.First(function, argument.ThermalResistance.NotNegative(at, heat)); err != nil {
			return err
		}
		if err := argument.First(function,
			argument.AtMost(at, heat, "what it makes at itself", s.Heats[i], "no source makes a neighbour hotter than itself; write the figures in the order of the sources"),
		); err != nil {
			return err
		}
	}
	return nil
}
