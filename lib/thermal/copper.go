package thermal

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// CopperInputs are the arguments of CopperArea and Neighbour.
type CopperInputs struct {
	Pad            units.Quantity // area of the pad through which the heat comes, m²
	Area           units.Quantity // copper joined to it, with the pad, m²
	Copper         units.Quantity // thickness of the copper, both layers together where vias join an equal area below, m
	Board          units.Quantity // area of the whole board, m²; left out: it ends with the copper
	Thickness      units.Quantity // of the board, m
	Transfer       units.Quantity // heat transfer coefficient of a face, with radiation, W/(m²·K); see PlateTemperature
	OneFace        bool           // only one face of the board gives heat to the air
	CopperConducts units.Quantity // thermal conductivity of copper foil, W/(m·K); left out: 385
	BoardConducts  units.Quantity // of the laminate, along it, W/(m·K); left out: 0.8
}

// CopperResult is what CopperArea finds.
type CopperResult struct {
	PadRadius    units.Quantity // of a disc of that area, m
	CopperRadius units.Quantity // likewise, m
	BoardRadius  units.Quantity // likewise, m
	Sheet        units.Quantity // conductance of a square of copper and board, W/K
	BareSheet    units.Quantity // conductance of a square of bare board, W/K
	Resistance   units.Quantity // from the pad to the air, K/W
	Ideal        units.Quantity // of a board that conducts without limit, K/W
	Efficiency   units.Quantity // Ideal/Resistance, no unit
	CopperEdge   units.Quantity // rise at the edge of the copper, of that of the pad, no unit
	BoardEdge    units.Quantity // rise at the edge of the board, of that of the pad, no unit
}

// CopperArea computes the thermal resistance from a pad to the air through an
// area of copper and the board around it, which spread the heat and give it
// away: a disc of copper on a disc of board.
//
//	PadRadius    = √(pad/π), CopperRadius = √(area/π), BoardRadius = √(board/π)
//	Sheet        = copper conducts · copper + board conducts · thickness
//	BareSheet    = board conducts · thickness
//	m            = √(faces · transfer/Sheet), and with BareSheet beyond the copper
//	rise at r    = a · I₀(m · r) + b · K₀(m · r), on either ring, joined in rise and heat, no heat at the board's edge
//	Resistance   = 1/(heat into the ring at PadRadius for each kelvin + faces · transfer · pad)
//	Ideal        = 1/(faces · transfer · board)
//	Efficiency   = Ideal/Resistance
//
// Arguments: areas, m², Pad not above Area, Area not above Board; thicknesses,
// m, Transfer and the conductivities above zero. It is an error outside of that.
//
//	c, err := thermal.CopperArea(thermal.CopperInputs{
//		Pad: 0.3cm², Area: 6.5cm², Copper: 35µm, Board: 40cm², Thickness: 1.6mm, Transfer: 12W/m²/K,
//	})
//	// c.Resistance: 40.76 K/W
//
// Holds to 30 %: for a pad in the middle of a compact area, copper that is not
// cut by traces, and one transfer coefficient for all of the board. Against
// eight measured layouts of one package, 2 cm² to 6.5 cm², it was 3 % to 25 %
// too high (the tests name them); below some 1 cm² the part's body and leads do
// more than the copper, and it is far too high. A long or slit area is worse,
// inner planes near the copper are better.
//
// Source: radial fin, modified Bessel functions: Incropera, Fundamentals of
// Heat and Mass Transfer, section 3.6, from memory; two rings joined by
// ourselves. Laminate 0.8 W/(m·K) along it, copper foil 385 W/(m·K): common
// practice.
//
// Caution: it starts at the pad: add the part's resistance from junction to
// pad, and vias (see Vias) where the second layer is to work. Other sources of
// heat on the board take part of its area: see Coupled.
func CopperArea(in CopperInputs) (CopperResult, error) {
	if err := in.check("thermal.CopperArea"); err != nil {
		return CopperResult{}, err
	}
	d := in.disc()
	one := units.Number(1)
	resistance := one.Div(d.conductance)
	ideal := one.Div(d.loss.Mul(in.board()))
	copperEdge := d.inner.share(d.copper)
	return CopperResult{
		PadRadius:    d.pad,
		CopperRadius: d.copper,
		BoardRadius:  d.board,
		Sheet:        d.inner.sheet,
		BareSheet:    d.outer.sheet,
		Resistance:   resistance,
		Ideal:        ideal,
		Efficiency:   ideal.Div(resistance),
		CopperEdge:   copperEdge,
		BoardEdge:    copperEdge.Mul(d.outer.share(d.board)),
	}, nil
}

// Neighbour returns what a watt into the pad of a copper area makes at a
// distance from the pad's middle, on the same board: the figure for a
// neighbour in Coupled.
//
//	heats = Resistance · (rise at the distance)/(rise of the pad)
//
// with both as CopperArea finds them.
//
// Arguments: in, see CopperArea; distance, m, above zero and not above the
// radius of a disc of the board's area. Result: K/W. It is an error outside of
// that. Within the pad it is Resistance.
//
//	heats, err := thermal.Neighbour(copper, 25mm)   // 5.175 K/W, with the copper of the example there
//
// Where it holds, source and cautions: as CopperArea. The neighbour's own
// copper, which spreads the heat further, is not counted.
func Neighbour(in CopperInputs, distance units.Quantity) (units.Quantity, error) {
	const function = "thermal.Neighbour"
	if err := in.check(function); err != nil {
		return none, err
	}
	d := in.disc()
	if err := argument.First(function,
		argument.Length.Positive("distance", distance),
	); err != nil {
		return none, err
	}
	if err := argument.First(function,
		argument.AtMost("distance", distance, "the radius of a disc of the board's area", d.board, "no neighbour is farther away on this board"),
	); err != nil {
		return none, err
	}
	onCopper := units.Min(units.Max(distance, d.pad), d.copper)
	beyond := units.Max(distance, d.copper)
	share := d.inner.share(onCopper).Mul(d.outer.share(beyond))
	heats := share.Div(d.conductance)
	return heats, nil
}

func (in CopperInputs) board() units.Quantity {
	if argument.Given(in.Board) {
		return in.Board
	}
	return in.Area
}

func (in CopperInputs) check(function string) error {
	if err := argument.First(function,
		argument.Surface.Positive("Pad", in.Pad),
		argument.Surface.Positive("Area", in.Area),
		argument.Length.Positive("Copper", in.Copper),
		argument.Surface.Optional("Board", in.Board),
		argument.Length.Positive("Thickness", in.Thickness),
		argument.HeatTransfer.Positive("Transfer", in.Transfer),
		argument.Conductivity.Optional("CopperConducts", in.CopperConducts),
		argument.Conductivity.Optional("BoardConducts", in.BoardConducts),
	); err != nil {
		return err
	}
	return argument.First(function,
		argument.AtMost("Pad", in.Pad, "Area", in.Area, "count the pad with the copper that it is part of"),
		argument.AtMost("Area", in.Area, "Board", in.board(), "leave Board out where the board ends with the copper"),
	)
}

// ring is a part of a board between two radii, one sheet all over, solved for
// what its outer edge leads on.
type ring struct {
	sheet units.Quantity // W/K
	m     units.Quantity // 1/m
	from  units.Quantity // inner radius, m
	to    units.Quantity // outer radius, m
	edge  bessels        // at the outer radius
	lead  units.Quantity // of the outer edge, in the ring's own measure, no unit
	first units.Quantity // rise at the inner radius, in the measure of at
	into  units.Quantity // what goes in there for each kelvin, W/K
}

// disc is a board with a pad in its middle.
type disc struct {
	pad, copper, board units.Quantity // radii, m
	loss               units.Quantity // of all faces, W/(m²·K)
	inner, outer       ring
	conductance        units.Quantity // from the pad to the air, W/K
}

func (in CopperInputs) disc() disc {
	copperConducts, boardConducts := units.MustParse("385 W/(m·K)"), units.MustParse("0.8 W/(m·K)")
	if argument.Given(in.CopperConducts) {
		copperConducts = in.CopperConducts
	}
	if argument.Given(in.BoardConducts) {
		boardConducts = in.BoardConducts
	}
	faces := units.Number(2)
	if in.OneFace {
		faces = units.Number(1)
	}
	radius := func(area units.Quantity) units.Quantity { return units.Sqrt(area.Div(units.Number(math.Pi))) }
	d := disc{pad: radius(in.Pad), copper: radius(in.Area), board: radius(in.board()), loss: faces.Mul(in.Transfer)}
	bareSheet := boardConducts.Mul(in.Thickness)
	sheet := copperConducts.Mul(in.Copper).Add(bareSheet)
	d.outer = newRing(bareSheet, d.loss, d.copper, d.board, argument.Slope.OrZero(none))
	d.inner = newRing(sheet, d.loss, d.pad, d.copper, d.outer.into)
	d.conductance = d.inner.into.Add(d.loss.Mul(in.Pad))
	return d
}

// newRing solves a ring whose outer edge leads beyond, W/K.
func newRing(sheet, loss, from, to, beyond units.Quantity) ring {
	m := units.Sqrt(loss.Div(sheet))
	edge := besselsOf(m.Mul(to))
	u := beyond.Div(units.Number(2 * math.Pi).Mul(sheet).Mul(m).Mul(to))
	g := ring{sheet: sheet, m: m, from: from, to: to, edge: edge, lead: u}
	rise, slope := g.at(from)
	g.first = rise
	g.into = units.Number(2 * math.Pi).Mul(sheet).Mul(m).Mul(from).Mul(slope).Div(rise)
	return g
}

// at gives rise and slope at a radius, of one scale: with the growing part
// counted down from the outer edge, no exponential overflows. What cancels
// where the ring has no width stands together, and so cancels to nothing.
func (g ring) at(radius units.Quantity) (rise, slope units.Quantity) {
	f, e := besselsOf(g.m.Mul(radius)), g.edge
	down := units.Exp(g.m.Mul(g.to.Sub(radius)).Mul(units.Number(-2)))
	growing, shrinking := f.i0.Mul(down), f.k0
	rise = e.k1.Mul(growing).Add(e.i1.Mul(shrinking)).Add(g.lead.Mul(e.i0.Mul(shrinking).Sub(e.k0.Mul(growing))))
	growing, shrinking = f.i1.Mul(down), f.k1
	slope = e.i1.Mul(shrinking).Sub(e.k1.Mul(growing)).Add(g.lead.Mul(e.i0.Mul(shrinking).Add(e.k0.Mul(growing))))
	return rise, slope
}

// share is the rise at a radius, of that at the inner edge.
func (g ring) share(radius units.Quantity) units.Quantity {
	rise, _ := g.at(radius)
	fall := units.Exp(g.m.Mul(g.from.Sub(radius)))
	return rise.Div(g.first).Mul(fall)
}
