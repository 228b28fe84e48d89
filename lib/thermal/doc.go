// Package thermal computes temperatures: what a power makes over thermal
// resistances, what a board and still air carry away, what pulses heat, and
// where a part comes to rest whose loss grows with its temperature.
//
// A temperature is a point on the scale (25°C), a rise a difference (40K). A
// thermal resistance goes from one reference point to another, and only
// means something with both named:
//
//	θJA  junction to air (ambient): all the heat, on the board it was measured on
//	θJC  junction to case: the heat that leaves through that side of the case
//	θCS  case to heat sink: the pad or paste
//	θSA  heat sink to air
//	θJB  junction to board: the heat that leaves through the board
//	ψJT  junction to top: no resistance of a path, but what is left to add to a
//	     measured top temperature, for the whole power, most of which leaves
//	     elsewhere; only for JunctionFromMeasured, and a Psi by type
//	ψJB  junction to board, likewise, for a temperature measured on the board
//
//	Tj, err := thermal.Junction(50°C, 500mW, 62K/W)   // 81 °C
//
// Steady: Rise, Junction, Chain, RequiredSink and ParallelPaths for one path or
// a few; TopAndBoard for a part with both; Network for any shape; Coupled for
// parts that warm each other; LargestPower, LargestAmbient and Derating for
// limits.
//
// Boards: CopperArea, Neighbour and Vias spread the heat, PlateLoss and
// PlateTemperature give it to still air. These are good to 30 %, and say so.
//
// Pulses: Impedance, Pulse, Pulses, PulseTrain and LargestPulse from a Foster
// network, exactly; CurvePulse from the curve of a data sheet.
//
// Losses that depend on temperature: Settled, SettledCurve and Leakage, with
// the margin to thermal runaway.
//
// What fails: a temperature where a difference belongs and the other way
// round, a thermal resistance of zero or less, a limit below the ambient
// temperature, a chain whose ends do not join, a ψ in place of a θ, values of a
// ladder in a Foster network (where a point of the curve is known), a part
// that runs away. Each error names the argument, its value, the limit, and
// what to change.
//
// What it does not cover: forced air, fins of a heat sink, boards beside each
// other or in a narrow box, heat sinks in the time domain beyond their own
// network (a Cauer network is not turned into a Foster network), the bend of a
// safe operating area at high voltage. The package cannot know whether a θJA
// from a data sheet fits a board: it depends on copper area, layers and air
// more than on the part.
package thermal
