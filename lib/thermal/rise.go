package thermal

import (
	"fmt"

	"ohmwright/lib/argument"
	"ohmwright/units"
)

// Rise returns the temperature difference that a power makes over a thermal
// resistance.
//
//	rise = power · resistance
//
// Arguments: power, W, not below zero; resistance, K/W, above zero. Result: a
// difference of temperatures, K. It is an error outside of that.
//
//	rise, err := thermal.Rise(218.1mW, 230K/W)   // 50.16 K
//
// Holds in the steady state, for a resistance that does not change with
// temperature (free convection falls by some 20 % from a 20 K to an 80 K
// rise).
//
// Source: definition of thermal resistance (JEDEC JESD51-1).
//
// Caution: the resistance must be from the point where the power is made to
// the point the rise is counted from, and for the whole of the power.
func Rise(power, resistance units.Quantity) (units.Quantity, error) {
	if err := argument.First("thermal.Rise",
		argument.Power.NotNegative("power", power),
		argument.ThermalResistance.Positive("resistance", resistance),
	); err != nil {
		return none, err
	}
	rise := power.Mul(resistance)
	return rise, nil
}

// Junction returns the temperature of a junction, or of any other hot point,
// over one or several thermal resistances in series.
//
//	junction = reference + power · (resistance₁ + resistance₂ + …)
//
// Arguments: reference, the temperature at the cold end, °C (air, case,
// heat sink, board: wherever the resistances end); power, W, not below zero,
// all of which goes through every resistance; resistances, K/W, at least one,
// each above zero. Result: a temperature, °C. It is an error outside of that.
//
//	Tj, err := thermal.Junction(40°C, 218.1mW, 230K/W)   // 90.16 °C
//
// Chain does the same with names and the temperature of each point between.
//
// Source: definition of thermal resistance (JEDEC JESD51-1).
//
// Caution: θJA belongs to the test board of its data sheet. ψJT is no
// resistance for this sum; see JunctionFromTop.
func Junction(reference, power units.Quantity, resistances ...units.Quantity) (units.Quantity, error) {
	const function = "thermal.Junction"
	if err := argument.First(function,
		argument.Temperature("reference", reference),
		argument.Power.NotNegative("power", power),
	); err != nil {
		return none, err
	}
	if err := checkResistances(function, resistances); err != nil {
		return none, err
	}
	total := resistances[0]
	for _, resistance := range resistances[1:] {
		total = total.Add(resistance)
	}
	rise := power.Mul(total)
	junction := reference.Add(rise)
	return junction, nil
}

func checkResistances(function string, resistances []units.Quantity) error {
	if len(resistances) == 0 {
		return fmt.Errorf("%s: no thermal resistance is given: write at least one, such as 62 K/W", function)
	}
	for i, resistance := range resistances {
		name := "resistance"
		if len(resistances) > 1 {
			name = fmt.Sprintf("resistance %d", i+1)
		}
		if err := argument.First(function, argument.ThermalResistance.Positive(name, resistance)); err != nil {
			return err
		}
	}
	return nil
}

// JunctionFromTop returns the temperature of a junction from one measured in
// the middle of the package's top.
//
//	junction = top + power · ψJT
//
// Arguments: top, the measured temperature, °C; power, W, not below zero, the
// whole power of the part; psi, the junction-to-top characterization
// parameter of the data sheet, K/W, above zero. Result: a temperature, °C. It
// is an error outside of that.
//
//	Tj, err := thermal.JunctionFromTop(71°C, 1.2W, 2.5K/W)   // 74 °C
//
// Holds for a board and air flow like those under which ψJT was measured,
// and without a heat sink on the top. With one, nearly all heat crosses the
// top: use θJC(top) in Chain.
//
// Source: definition of the thermal characterization parameter (JEDEC
// JESD51-2A, from memory).
//
// Caution: θJC in place of ψJT gives a junction far too hot, ψJT in place of
// θJC one far too cool. A thermocouple cools what it measures: use thin wire.
func JunctionFromTop(top, power, psi units.Quantity) (units.Quantity, error) {
	if err := argument.First("thermal.JunctionFromTop",
		argument.Temperature("top", top),
		argument.Power.NotNegative("power", power),
		argument.ThermalResistance.Positive("psi", psi),
	); err != nil {
		return none, err
	}
	difference := power.Mul(psi)
	junction := top.Add(difference)
	return junction, nil
}
