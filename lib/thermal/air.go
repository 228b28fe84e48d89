package thermal

import (
	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Constants of air and of the earth, each with where it is from.
var (
	gravity         = units.MustParse("9.80665 m/s²")             // standard value, CGPM 1901
	stefanBoltzmann = units.MustParse("5.670374419e-8 W/(m²·K⁴)") // CODATA 2018
	standardPress   = units.MustParse("101.325 kPa")              // U.S. Standard Atmosphere, 1976
	gasConstant     = units.MustParse("287.053 J/(kg·K)")         // of dry air: 8.31432/0.0289644, U.S. Standard Atmosphere, 1976
	heatOfAir       = units.MustParse("1007 J/(kg·K)")            // at constant pressure, 250 K to 350 K within 0.2 % (Incropera, table A.4, from memory)
	coldestFilm     = units.MustParse("-73 °C")                   // of what the formulas below hold for
	hottestFilm     = units.MustParse("326 °C")                   // likewise
	kelvin          = units.MustParse("1 K")
	dynamicBeta     = units.MustParse("1.458e-6 kg/(s·m)")  // Sutherland, U.S. Standard Atmosphere, 1976, in kg/(s·m·√K)
	conductBeta     = units.MustParse("2.64638e-3 W/(m·K)") // likewise, for conductivity, in W/(m·K^1.5)
)

// air is what convection needs to know of air at one temperature and pressure.
type air struct {
	conductivity units.Quantity // W/(m·K)
	viscosity    units.Quantity // kinematic, m²/s
	diffusivity  units.Quantity // thermal, m²/s
}

// airAt computes them from the formulas of the U.S. Standard Atmosphere, 1976
// (equations 51 and 53): viscosity 1.458e-6 · T^1.5/(T + 110.4), conductivity
// 2.64638e-3 · T^1.5/(T + 245.4 · 10^(−12/T)), T the number of kelvins. The
// numbers in them have no tidy units, so T goes in as its ratio to a kelvin.
func airAt(film, pressure units.Quantity) air {
	kelvins := units.Absolute(film).Div(kelvin)
	power := units.Pow(kelvins, 1.5)
	dynamic := dynamicBeta.Mul(power).Div(kelvins.Add(units.Number(110.4)))
	fall := units.Exp(units.Number(-27.631021115928547).Div(kelvins)) // 10^(−12/T)
	conductivity := conductBeta.Mul(power).Div(kelvins.Add(units.Number(245.4).Mul(fall)))
	density := pressure.Div(gasConstant.Mul(units.Absolute(film)))
	viscosity := dynamic.Div(density)
	diffusivity := conductivity.Div(density.Mul(heatOfAir))
	return air{conductivity: conductivity, viscosity: viscosity, diffusivity: diffusivity}
}

// rayleigh of air between two temperatures along a length.
func (a air) rayleigh(film, difference, length units.Quantity) units.Quantity {
	expansion := units.Number(1).Div(units.Absolute(film)) // of an ideal gas, 1/K
	lift := gravity.Mul(expansion).Mul(difference).Mul(length).Mul(length).Mul(length)
	return lift.Div(a.viscosity.Mul(a.diffusivity))
}

func (a air) prandtl() units.Quantity { return a.viscosity.Div(a.diffusivity) }

// verticalNusselt is the mean over a vertical plate, laminar and turbulent:
// Churchill and Chu 1975.
func verticalNusselt(rayleigh, prandtl units.Quantity) units.Quantity {
	one := units.Number(1)
	inner := one.Add(units.Pow(units.Number(0.492).Div(prandtl), 9.0/16))
	root := units.Number(0.825).Add(units.Number(0.387).Mul(units.Pow(rayleigh, 1.0/6)).Div(units.Pow(inner, 8.0/27)))
	return root.Mul(root)
}

// upperNusselt is that of a warm plate that faces up. Three pieces are
// published for three ranges; the largest of them is taken, so that it is
// continuous where one takes over from the other (a Rayleigh number of about
// 1000 and of 4.7e6).
func upperNusselt(rayleigh units.Quantity) units.Quantity {
	least := units.Number(0.96).Mul(units.Pow(rayleigh, 1.0/6))     // Goldstein, Sparrow and Jones 1973, 1 to 200
	laminar := units.Number(0.54).Mul(units.Pow(rayleigh, 0.25))    // Lloyd and Moran 1974, to about 1e7
	turbulent := units.Number(0.15).Mul(units.Pow(rayleigh, 1.0/3)) // likewise, to about 1e11
	return units.Max(least, laminar, turbulent)
}

// lowerNusselt is that of a warm plate that faces down.
func lowerNusselt(rayleigh units.Quantity) units.Quantity {
	return units.Number(0.27).Mul(units.Pow(rayleigh, 0.25)) // McAdams 1954, 1e5 to 1e10
}

// radiation is the heat transfer coefficient of a surface to walls around it.
func radiation(emissivity, surface, ambient units.Quantity) units.Quantity {
	hot, cold := units.Absolute(surface), units.Absolute(ambient)
	return emissivity.Mul(stefanBoltzmann).Mul(hot.Add(cold)).Mul(hot.Mul(hot).Add(cold.Mul(cold)))
}

func pressureOr(pressure units.Quantity) units.Quantity {
	if argument.Given(pressure) {
		return pressure
	}
	return standardPress
}
