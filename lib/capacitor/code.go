package capacitor

import (
	"fmt"
	"strings"

	"ohmwright/units"
)

// TemperatureCodeResult is what TemperatureCode reads.
type TemperatureCodeResult struct {
	Class   int            // 1: a straight line, ages not; 2: bent, falls with bias and age
	Lowest  units.Quantity // temperature from which it holds, °C
	Highest units.Quantity // temperature up to which it holds, °C
	Lost    units.Quantity // share that may be missing over that range, no unit; class 2
	Gained  units.Quantity // share that may be too much over that range, no unit; class 2
	Slope   units.Quantity // of the line from 25 °C, 1/K; class 1
	Either  units.Quantity // by how much the slope differs from that, at most, 1/K; class 1
}

// Of EIA-198: class 2 by lowest temperature, highest temperature and change;
// class 1 by the figure of the slope, its multiplier and its tolerance. Slopes
// are in ppm/K.
var (
	lowest  = map[byte]string{'X': "-55 °C", 'Y': "-30 °C", 'Z': "10 °C"}
	highest = map[byte]string{'2': "45 °C", '4': "65 °C", '5': "85 °C", '6': "105 °C", '7': "125 °C", '8': "150 °C", '9': "200 °C"}
	changes = map[byte][2]float64{
		'A': {0.01, 0.01}, 'B': {0.015, 0.015}, 'C': {0.022, 0.022}, 'D': {0.033, 0.033}, 'E': {0.047, 0.047}, 'F': {0.075, 0.075},
		'P': {0.1, 0.1}, 'R': {0.15, 0.15}, 'S': {0.22, 0.22}, 'T': {0.33, 0.22}, 'U': {0.56, 0.22}, 'V': {0.82, 0.22},
	}
	figures     = map[byte]float64{'C': 0, 'B': 0.3, 'L': 0.8, 'A': 0.9, 'M': 1, 'P': 1.5, 'R': 2.2, 'S': 3.3, 'T': 4.7, 'U': 7.5}
	multipliers = map[byte]float64{'0': -1, '1': -10, '2': -100, '3': -1000, '4': -10000, '5': 1, '6': 10, '7': 100, '8': 1000, '9': 10000}
	eithers     = map[byte]float64{'G': 30, 'H': 60, 'J': 120, 'K': 250, 'L': 500, 'M': 1000, 'N': 2500}
)

// TemperatureCode reads the three signs that say how the capacitance of a
// ceramic capacitor changes with its temperature.
//
//	X7R: class 2, −55 °C … 125 °C, ±15 %
//	Y5V: class 2, −30 °C … 85 °C, −82 % … +22 %
//	C0G: class 1, 0 ppm/K ± 30 ppm/K, also called NP0
//	U2J: class 1, −750 ppm/K ± 120 ppm/K
//
// Class 2: X, Y, Z for the lowest temperature, 4 to 9 for the highest, a
// letter for the change over all of it. Class 1: a letter for the figure of
// the slope, a digit for its multiplier, a letter for its tolerance; it is
// taken to hold from −55 °C to 125 °C. Lower case and the letter O for the
// digit are accepted.
//
// It is an error if the code is none of them.
//
//	x7r, err := capacitor.TemperatureCode("X7R")
//	// x7r.Lost: 15 %
//
// Source: EIA-198 (from memory; X7R, X5R, Y5V, Z5U and C0G as makers print
// them).
//
// Caution: a code says nothing about bias, which takes far more than
// temperature from class 2, and nothing about age.
func TemperatureCode(code string) (TemperatureCodeResult, error) {
	signs := strings.ToUpper(strings.TrimSpace(code))
	if signs == "NP0" || signs == "NPO" {
		signs = "C0G"
	}
	refuse := func() (TemperatureCodeResult, error) {
		return TemperatureCodeResult{}, fmt.Errorf("capacitor.TemperatureCode: %q is no code of EIA-198: write the three signs, such as X7R, X5R, Y5V or C0G", code)
	}
	if len(signs) != 3 {
		return refuse()
	}
	a, b, c := signs[0], signs[1], signs[2]
	if b == 'O' {
		b = '0'
	}
	zero := units.Number(0)
	ppm := units.MustParse("1 ppm/K")
	if low, ok := lowest[a]; ok {
		high, ok := highest[b]
		change, known := changes[c]
		if !ok || !known {
			return refuse()
		}
		return TemperatureCodeResult{
			Class: 2, Lowest: units.MustParse(low), Highest: units.MustParse(high),
			Lost: units.Number(change[0]), Gained: units.Number(change[1]),
			Slope: ppm.Sub(ppm), Either: ppm.Sub(ppm),
		}, nil
	}
	figure, ok := figures[a]
	multiplier, known := multipliers[b]
	either, told := eithers[c]
	if !ok || !known || !told {
		return refuse()
	}
	return TemperatureCodeResult{
		Class: 1, Lowest: units.MustParse("-55 °C"), Highest: units.MustParse("125 °C"),
		Lost: zero, Gained: zero,
		Slope: ppm.Mul(units.Number(figure * multiplier)), Either: ppm.Mul(units.Number(either)),
	}, nil
}
