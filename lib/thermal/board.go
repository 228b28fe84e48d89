package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// TopAndBoardInputs are the arguments of TopAndBoard.
type TopAndBoardInputs struct {
	Ambient         units.Quantity // air, at the top as at the board, °C
	Power           units.Quantity // of the part, W
	JunctionToCase  units.Quantity // θJC to the top of the case, K/W; never ψJT
	CaseToAir       units.Quantity // from the case's top to the air, bare or with its heat sink, K/W
	JunctionToBoard units.Quantity // θJB, K/W; never ψJB
	BoardToAir      units.Quantity // from the board at the part to the air, K/W
	Others          units.Quantity // power of other parts that heats the same board, W; left out: none
}

// TopAndBoardResult is what TopAndBoard finds.
type TopAndBoardResult struct {
	TopPath    units.Quantity // from the junction by the top to the air, K/W
	BoardPath  units.Quantity // from the junction by the board to the air, K/W
	Preheat    units.Quantity // rise of the board by the others alone, K
	Rise       units.Quantity // of the junction above the air, K
	Junction   units.Quantity // °C
	Case       units.Quantity // temperature of the case's top, °C
	Board      units.Quantity // temperature of the board at the part, °C
	TopPower   units.Quantity // that leaves by the top, W
	BoardPower units.Quantity // of the part that leaves by the board, W; below zero where the others heat it
}

// TopAndBoard computes a part that gives its heat both to the air above it
// and to a board with a temperature of its own, which other parts heat as
// well: the two-resistor model.
//
//	TopPath    = junction to case + case to air
//	BoardPath  = junction to board + board to air
//	Preheat    = others · board to air
//	Rise       = (power + Preheat/BoardPath)/(1/TopPath + 1/BoardPath)
//	Junction   = ambient + Rise
//	TopPower   = Rise/TopPath
//	BoardPower = (Rise − Preheat)/BoardPath
//	Case       = ambient + TopPower · case to air
//	Board      = ambient + (BoardPower + others) · board to air
//
// Arguments: Ambient, °C; Power and Others, W, not below zero; the
// resistances, K/W, above zero. It is an error outside of that, and where
// Preheat is above 10 000 K.
//
//	t, err := thermal.TopAndBoard(thermal.TopAndBoardInputs{
//		Ambient: 50°C, Power: 1W, JunctionToCase: 25K/W, CaseToAir: 175K/W, JunctionToBoard: 10K/W, BoardToAir: 30K/W,
//	})
//	// t.Junction: 83.3 °C, t.Board: 75 °C; 833 mW leave by the board
//
// Holds to some 10 % to 30 % of the rise: the model has one temperature for
// the whole top and one for the board. More parts that heat each other are
// Coupled, any other shape is a Network.
//
// Source: two-resistor compact thermal model (JEDEC JESD15-3, from memory);
// Kirchhoff's rule for the heat at the junction.
//
// Caution: θJC is the one to the top, which data sheets call θJC(top); that of
// a part with an exposed pad is to its underside and belongs to the board's
// path. θJA in place of BoardToAir counts the part twice.
func TopAndBoard(in TopAndBoardInputs) (TopAndBoardResult, error) {
	others := argument.Power.OrZero(in.Others)
	if err := argument.First("thermal.TopAndBoard",
		argument.Temperature("Ambient", in.Ambient),
		argument.Power.NotNegative("Power", in.Power),
		argument.ThermalResistance.Positive("JunctionToCase", in.JunctionToCase),
		argument.ThermalResistance.Positive("CaseToAir", in.CaseToAir),
		argument.ThermalResistance.Positive("JunctionToBoard", in.JunctionToBoard),
		argument.ThermalResistance.Positive("BoardToAir", in.BoardToAir),
		argument.Power.NotNegative("Others", others),
	); err != nil {
		return TopAndBoardResult{}, err
	}
	preheat := others.Mul(in.BoardToAir)
	// Beyond that the small differences below are rounding, and may lead under
	// absolute zero.
	if err := argument.First("thermal.TopAndBoard",
		argument.AtMost("what Others heat the board by", preheat, "what any board stands", units.MustParse("10000 K"), "lower Others or BoardToAir"),
	); err != nil {
		return TopAndBoardResult{}, err
	}
	ambient, power := in.Ambient, in.Power
	topPath := in.JunctionToCase.Add(in.CaseToAir)
	boardPath := in.JunctionToBoard.Add(in.BoardToAir)
	one := units.Number(1)
	conductance := one.Div(topPath).Add(one.Div(boardPath))
	rise := power.Add(preheat.Div(boardPath)).Div(conductance)
	junction := ambient.Add(rise)
	topPower := rise.Div(topPath)
	boardPower := rise.Sub(preheat).Div(boardPath)
	caseTop := ambient.Add(topPower.Mul(in.CaseToAir))
	board := ambient.Add(boardPower.Add(others).Mul(in.BoardToAir))
	return TopAndBoardResult{
		TopPath:    topPath,
		BoardPath:  boardPath,
		Preheat:    preheat,
		Rise:       rise,
		Junction:   junction,
		Case:       caseTop,
		Board:      board,
		TopPower:   topPower,
		BoardPower: boardPower,
	}, nil
}
