package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Psi holds the characterization parameters of a data sheet. They have the
// unit of a thermal resistance but are none, so they have a type of their own,
// which no chain, network or heat sink takes.
type Psi struct {
	JunctionToTop   units.Quantity // ψJT, K/W
	JunctionToBoard units.Quantity // ψJB, K/W
}

// MeasuredInputs are the arguments of JunctionFromMeasured. Of top and board
// give one, or both; each with its parameter.
type MeasuredInputs struct {
	Power units.Quantity // whole power of the part, W
	Psi   Psi            // of the data sheet
	Top   units.Quantity // measured in the middle of the package's top, °C
	Board units.Quantity // measured on the board at the long side of the package, within 1 mm of it, °C
}

// MeasuredResult is what JunctionFromMeasured finds.
type MeasuredResult struct {
	Junction     units.Quantity // the hotter of the two estimates, or the only one, °C
	Disagreement units.Quantity // between the two, K; 0 K for one
}

// JunctionFromMeasured estimates the temperature of a junction from those
// measured on top of its package, or on the board beside it, or both.
//
//	from top     = top + power · ψJT
//	from board   = board + power · ψJB
//	Junction     = the hotter of the two
//	Disagreement = |from top − from board|
//
// Arguments: Power, W, not below zero; Top and Board, °C; in Psi the parameter
// of each that is given, K/W, above zero. It is an error outside of that, and
// where a temperature comes without its parameter or none is given.
//
//	m, err := thermal.JunctionFromMeasured(thermal.MeasuredInputs{
//		Power: 0.51W, Psi: thermal.Psi{JunctionToTop: 6.1K/W}, Top: 95.26°C,
//	})
//	// m.Junction: 98.37 °C
//
// Holds for a board and air flow like those under which the parameters were
// measured, and without a heat sink on the top. They depend little on the
// board's size, which θJA does not: an estimate from a measurement is better
// than one from the air.
//
// Source: JEDEC JESD51-2A (ψJT) and JESD51-6 (ψJB), from memory; both forms
// are in many data sheets (TPS795 SLVS350J, equation 6).
//
// Caution: a Disagreement of more than a few kelvin means that a sensor does
// not measure what it should: a thermocouple cools the top, an infrared
// thermometer wants the emissivity of the package. The board is measured at
// the package, not somewhere.
func JunctionFromMeasured(in MeasuredInputs) (MeasuredResult, error) {
	const function = "thermal.JunctionFromMeasured"
	if err := argument.First(function, argument.Power.NotNegative("Power", in.Power)); err != nil {
		return MeasuredResult{}, err
	}
	top, board := argument.Given(in.Top), argument.Given(in.Board)
	if !top && !board {
		return MeasuredResult{}, fmt.Errorf("%s: neither Top nor Board is given: write the temperature that was measured", function)
	}
	if top {
		if err := argument.First(function,
			argument.Temperature("Top", in.Top),
			argument.ThermalResistance.Positive("Psi.JunctionToTop", in.Psi.JunctionToTop),
		); err != nil {
			return MeasuredResult{}, err
		}
	}
	if board {
		if err := argument.First(function,
			argument.Temperature("Board", in.Board),
			argument.ThermalResistance.Positive("Psi.JunctionToBoard", in.Psi.JunctionToBoard),
		); err != nil {
			return MeasuredResult{}, err
		}
	}
	if !board {
		fromTop := in.Top.Add(in.Power.Mul(in.Psi.JunctionToTop))
		return MeasuredResult{Junction: fromTop, Disagreement: argument.Difference.OrZero(none)}, nil
	}
	fromBoard := in.Board.Add(in.Power.Mul(in.Psi.JunctionToBoard))
	if !top {
		return MeasuredResult{Junction: fromBoard, Disagreement: argument.Difference.OrZero(none)}, nil
	}
	fromTop := in.Top.Add(in.Power.Mul(in.Psi.JunctionToTop))
	junction := units.Max(fromTop, fromBoard)
	disagreement := units.Abs(fromTop.Sub(fromBoard))
	return MeasuredResult{Junction: junction, Disagreement: disagreement}, nil
}
