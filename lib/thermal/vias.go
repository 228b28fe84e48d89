package thermal

import (
	"fmt"
	"math"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// ViasInputs are the arguments of Vias.
type ViasInputs struct {
	Count          int            // of vias under the pad
	Drill          units.Quantity // diameter of the drilled hole, m
	Plating        units.Quantity // thickness of the copper in it, m
	Length         units.Quantity // thickness of the board that they cross, m
	Pad            units.Quantity // area of the pad, m²
	Filling        units.Quantity // thermal conductivity of what fills the holes, W/(m·K): 0.5 resin, 50 solder; left out: air
	CopperConducts units.Quantity // thermal conductivity of the plating, W/(m·K); left out: 385
	BoardConducts  units.Quantity // of the laminate, through it, W/(m·K); left out: 0.3
}

// ViasResult is what Vias finds.
type ViasResult struct {
	Barrel     units.Quantity // copper cross-section of one via, m²
	One        units.Quantity // one via with its filling, K/W
	All        units.Quantity // all vias, K/W
	Laminate   units.Quantity // the laminate between them, K/W
	Resistance units.Quantity // all together, through the board, K/W
}

// Vias computes the thermal resistance from a pad through the board to the
// copper below.
//
//	Barrel     = π · plating · (drill − plating)
//	hole       = π · (drill − 2 · plating)²/4
//	One        = length/(copper conducts · Barrel + filling · hole)
//	All        = One/count
//	Laminate   = length/(board conducts · (pad − count · π · drill²/4))
//	Resistance = 1/(1/All + 1/Laminate)
//
// Arguments: Count, at least 1; lengths, m, and Pad, m², above zero, Plating
// not above half of Drill, the holes together smaller than Pad; conductivities
// above zero. It is an error outside of that.
//
//	v, err := thermal.Vias(thermal.ViasInputs{Count: 9, Drill: 0.3mm, Plating: 20µm, Length: 1.6mm, Pad: 9mm²})
//	// v.One: 236 K/W, v.Resistance: 25 K/W
//
// Holds for vias right under the pad, to 20 %, which plating varies by. Those
// beside it work through the copper that leads to them.
//
// Source: conduction through a bar, length/(conductivity · section); copper
// 385 W/(m·K), FR-4 0.3 W/(m·K) through it: common practice.
//
// Caution: open vias under a soldered pad draw the solder away: at most 0.3 mm
// wide, or filled and capped. A stated diameter may be that of the finished
// hole: drill is larger by twice the plating.
func Vias(in ViasInputs) (ViasResult, error) {
	const function = "thermal.Vias"
	copperConducts, boardConducts := units.MustParse("385 W/(m·K)"), units.MustParse("0.3 W/(m·K)")
	if argument.Given(in.CopperConducts) {
		copperConducts = in.CopperConducts
	}
	if argument.Given(in.BoardConducts) {
		boardConducts = in.BoardConducts
	}
	half := units.Number(0.5)
	if err := argument.First(function,
		argument.Count("Count", in.Count, 1, 10000, "write how many vias the pad has"),
		argument.Length.Positive("Drill", in.Drill),
		argument.Length.Positive("Plating", in.Plating),
		argument.Length.Positive("Length", in.Length),
		argument.Surface.Positive("Pad", in.Pad),
		argument.Conductivity.Optional("Filling", in.Filling),
		argument.Conductivity.Positive("CopperConducts", copperConducts),
		argument.Conductivity.Positive("BoardConducts", boardConducts),
	); err != nil {
		return ViasResult{}, err
	}
	if err := argument.First(function,
		argument.AtMost("Plating", in.Plating, "half of Drill", in.Drill.Mul(half), "more does not fit into the hole"),
	); err != nil {
		return ViasResult{}, err
	}
	pi, count := units.Number(math.Pi), units.Number(float64(in.Count))
	bore := in.Drill.Sub(in.Plating).Sub(in.Plating)
	hole := pi.Mul(bore).Mul(bore).Mul(units.Number(0.25))
	barrel := units.In(pi.Mul(in.Plating).Mul(in.Drill.Sub(in.Plating)), "mm²")
	drilled := count.Mul(pi).Mul(in.Drill).Mul(in.Drill).Mul(units.Number(0.25))
	if at := argument.NotAbove(in.Pad, drilled, drilled.In("mm²"), in.Pad); at != nil {
		return ViasResult{}, fmt.Errorf("%s: Count holes of Drill take %s together; they must be below Pad, %s: lower Count or Drill", function, at[0], at[1])
	}
	filling := argument.Conductivity.OrZero(in.Filling)
	conducts := copperConducts.Mul(barrel).Add(filling.Mul(hole))
	one := in.Length.Div(conducts)
	all := one.Div(count)
	laminate := in.Length.Div(boardConducts.Mul(in.Pad.Sub(drilled)))
	resistance := units.Parallel(all, laminate)
	return ViasResult{Barrel: barrel, One: one, All: all, Laminate: laminate, Resistance: resistance}, nil
}
