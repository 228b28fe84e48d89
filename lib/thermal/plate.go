package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Plate is a plate or board in still air. Position is "vertical", with both
// faces free and Height upright; "vertical, one face"; "horizontal", with both
// faces free; "face up" or "face down", horizontal with that face only.
type Plate struct {
	Height     units.Quantity // m
	Width      units.Quantity // m
	Position   string         // see above
	Emissivity units.Quantity // of its faces in the infrared, no unit: 0.9 lacquer and plastics, 0.05 bare copper; left out: no radiation
	Pressure   units.Quantity // of the air, Pa; left out: 101.325 kPa
}

// PlateResult is what PlateLoss and PlateTemperature find.
type PlateResult struct {
	Surface    units.Quantity // temperature of the plate, °C
	Film       units.Quantity // mean of plate and air, for which the air's properties are taken, °C
	Rayleigh   units.Quantity // no unit
	Nusselt    units.Quantity // mean of the faces, no unit
	Convection units.Quantity // heat transfer coefficient, mean of the faces, W/(m²·K)
	Radiation  units.Quantity // likewise, by radiation, W/(m²·K)
	Transfer   units.Quantity // sum of both, W/(m²·K)
	Power      units.Quantity // from all faces, W
	Resistance units.Quantity // from the plate to the air, K/W
}

// PlateLoss computes what a plate or board of one temperature gives to still
// air by natural convection, and to walls at the air's temperature by
// radiation.
//
//	Film       = (surface + ambient)/2
//	Rayleigh   = g · (surface − ambient) · length³/(Film in kelvin · viscosity · diffusivity)
//	length     = height of a vertical plate, area/perimeter of a horizontal one
//	Nusselt    = (0.825 + 0.387 · Rayleigh^(1/6)/(1 + (0.492/Prandtl)^(9/16))^(8/27))², vertical
//	Nusselt    = 0.54 · Rayleigh^(1/4), or 0.15 · Rayleigh^(1/3), or 0.96 · Rayleigh^(1/6), the largest, facing up
//	Nusselt    = 0.27 · Rayleigh^(1/4), facing down
//	Convection = Nusselt · conductivity/length
//	Radiation  = emissivity · σ · (surface + ambient) · (surface² + ambient²), in kelvin
//	Transfer   = Convection + Radiation
//	Power      = Transfer · area of the faces · (surface − ambient)
//	Resistance = 1/(Transfer · area of the faces)
//
// with viscosity, diffusivity and conductivity of air at Film.
//
// Arguments: plate, of which Height and Width, m, are above zero, Emissivity
// from 0 to 1, Pressure, Pa, above zero; surface and ambient, °C, surface above
// ambient. It is an error outside of that, of −73 °C to 326 °C for Film, and of
// the range of the correlation: a Rayleigh number up to 1e12 vertical, 1 to 1e11
// facing up, 1e3 to 1e10 facing down (published from 1e5: below, on small boards,
// it gives up to 40 % too little for that face, which is safe).
//
//	p, err := thermal.PlateLoss(thermal.Plate{Height: 100mm, Width: 160mm, Position: "vertical", Emissivity: 0.9}, 80°C, 50°C)
//
// Holds for a plate alone in still air, to 20 % in a laboratory; allow 30 % for
// a board with parts on it and walls around. Between boards less than some
// 15 mm apart, in a box that is little larger, or where other walls are hot, it
// is less.
//
// Source: Churchill and Chu 1975; Lloyd and Moran 1974; Goldstein, Sparrow and
// Jones 1973; McAdams 1954; all as in Incropera, Fundamentals of Heat and Mass
// Transfer, chapter 9, from memory. Properties of air: U.S. Standard
// Atmosphere, 1976.
//
// Caution: radiation is half of it in still air: bare metal has next to none.
// In a closed box ambient is the air inside, which the box warms.
func PlateLoss(plate Plate, surface, ambient units.Quantity) (PlateResult, error) {
	const function = "thermal.PlateLoss"
	if err := plate.check(function); err != nil {
		return PlateResult{}, err
	}
	if err := argument.First(function,
		argument.Temperature("surface", surface),
		argument.Temperature("ambient", ambient),
	); err != nil {
		return PlateResult{}, err
	}
	if err := argument.First(function,
		argument.Above("surface", surface, "ambient", ambient, "without a difference nothing flows"),
	); err != nil {
		return PlateResult{}, err
	}
	if err := checkFilm(function, surface, ambient); err != nil {
		return PlateResult{}, err
	}
	rise := surface.Sub(ambient)
	r := plate.loss(rise, ambient)
	r.Surface, r.Resistance = surface, rise.Div(r.Power)
	if err := plate.checkRange(function, r); err != nil {
		return PlateResult{}, err
	}
	return r, nil
}

// PlateTemperature finds the temperature at which a plate or board gives away
// a power, as PlateLoss computes it.
//
//	power = Transfer · area of the faces · (Surface − ambient), solved for Surface
//
// Arguments: plate and ambient, °C, as at PlateLoss; power, W, above zero, that
// leaves by all of its faces. It is an error outside of that, and where the
// plate would need more than the air's properties hold for.
//
//	p, err := thermal.PlateTemperature(thermal.Plate{Height: 100mm, Width: 160mm, Position: "vertical", Emissivity: 0.9}, 3W, 50°C)
//	// p.Transfer is the h for CopperArea
//
// Where it holds, source and cautions: as PlateLoss. The temperature is that
// of a plate which conducts well; a board is hotter at its parts.
func PlateTemperature(plate Plate, power, ambient units.Quantity) (PlateResult, error) {
	const function = "thermal.PlateTemperature"
	if err := plate.check(function); err != nil {
		return PlateResult{}, err
	}
	if err := argument.First(function,
		argument.Power.Positive("power", power),
		argument.Temperature("ambient", ambient),
	); err != nil {
		return PlateResult{}, err
	}
	most := hottestFilm.Sub(ambient).Mul(units.Number(2))
	if err := checkFilm(function, ambient, ambient); err != nil {
		return PlateResult{}, err
	}
	full := plate.loss(most, ambient)
	if at := argument.Below(full.Power, power, power, full.Surface); at != nil {
		return PlateResult{}, fmt.Errorf("%s: power is %s; the plate would be hotter than %s: lower it or take a larger plate", function, at[0], at[1])
	}
	rise := units.Solve("rise of the plate", argument.Difference.OrZero(none), most, func(rise units.Quantity) units.Quantity {
		return plate.loss(rise, ambient).Power.Sub(power)
	})
	r := plate.loss(rise, ambient)
	r.Power, r.Resistance = power, rise.Div(power)
	if err := plate.checkRange(function, r); err != nil {
		return PlateResult{}, err
	}
	return r, nil
}

// faces of a position: how many, and of which kind.
type faces struct{ vertical, up, down, count float64 }

var positions = map[string]faces{
	"vertical":           {vertical: 1, count: 2},
	"vertical, one face": {vertical: 1, count: 1},
	"horizontal":         {up: 0.5, down: 0.5, count: 2},
	"face up":            {up: 1, count: 1},
	"face down":          {down: 1, count: 1},
}

func (p Plate) check(function string) error {
	emissivity := argument.Share.OrZero(p.Emissivity)
	if err := argument.First(function,
		argument.Length.Positive("Height", p.Height),
		argument.Length.Positive("Width", p.Width),
		argument.Share.NotNegative("Emissivity", emissivity),
		argument.Pressure.Optional("Pressure", p.Pressure),
	); err != nil {
		return err
	}
	if err := argument.First(function,
		argument.AtMost("Emissivity", emissivity, "that of a black body", units.Number(1), "write 0.9 for lacquer, solder resist or plastics"),
	); err != nil {
		return err
	}
	if _, ok := positions[p.Position]; !ok {
		return fmt.Errorf(`%s: Position is %q; it must be "vertical", "vertical, one face", "horizontal", "face up" or "face down"`, function, p.Position)
	}
	return nil
}

// loss at a rise above the air, without checks and without Resistance, which
// has no value where nothing flows.
func (p Plate) loss(rise, ambient units.Quantity) PlateResult {
	half := units.Number(0.5)
	surface := ambient.Add(rise)
	film := ambient.Add(rise.Mul(half))
	a := airAt(film, pressureOr(p.Pressure))
	f := positions[p.Position]
	area := p.Height.Mul(p.Width)
	length := p.Height
	if f.vertical == 0 {
		length = area.Mul(half).Div(p.Height.Add(p.Width))
	}
	rayleigh := a.rayleigh(film, rise, length)
	nusselt := units.Number(f.vertical).Mul(verticalNusselt(rayleigh, a.prandtl())).
		Add(units.Number(f.up).Mul(upperNusselt(rayleigh))).
		Add(units.Number(f.down).Mul(lowerNusselt(rayleigh)))
	convection := nusselt.Mul(a.conductivity).Div(length)
	radiated := radiation(argument.Share.OrZero(p.Emissivity), surface, ambient)
	transfer := convection.Add(radiated)
	conductance := transfer.Mul(area).Mul(units.Number(f.count))
	return PlateResult{
		Surface:    surface,
		Film:       film,
		Rayleigh:   rayleigh,
		Nusselt:    nusselt,
		Convection: convection,
		Radiation:  radiated,
		Transfer:   transfer,
		Power:      conductance.Mul(rise),
	}
}

// checkFilm refuses air for which its properties are not known.
func checkFilm(function string, surface, ambient units.Quantity) error {
	film := ambient.Add(surface.Sub(ambient).Mul(units.Number(0.5)))
	cold, hot := coldestFilm, hottestFilm
	at := argument.Below(film, cold, film)
	if at == nil {
		at = argument.Below(hot, film, film)
	}
	if at != nil {
		return fmt.Errorf("%s: the air between surface and ambient is at %s; its properties are known from %v to %v: check both temperatures", function, at[0], cold, hot)
	}
	return nil
}

// checkRange refuses a Rayleigh number for which the correlation was not found.
func (p Plate) checkRange(function string, r PlateResult) error {
	f := positions[p.Position]
	least, most := units.Number(0), units.Number(1e12)
	switch {
	case f.down > 0:
		least, most = units.Number(1e3), units.Number(1e10)
	case f.up > 0:
		least, most = units.Number(1), units.Number(1e11)
	}
	at := argument.Below(r.Rayleigh, least, r.Rayleigh)
	if at == nil {
		at = argument.Below(most, r.Rayleigh, r.Rayleigh)
	}
	if at != nil {
		return fmt.Errorf("%s: the Rayleigh number is %s; the correlation for %q holds from %v to %v: check Height, Width and Pressure", function, at[0], p.Position, least, most)
	}
	return nil
}
