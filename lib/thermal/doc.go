// Package thermal computes steady temperatures: the rise that a power makes
// over a thermal resistance, chains of resistances from a junction to the
// air, the heat sink needed, and the power that is left when a rating falls
// with temperature.
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
//	     elsewhere; only for JunctionFromTop
//	ψJB  junction to board, likewise, for a temperature measured on the board
//
//	Tj, err := thermal.Junction(50°C, 500mW, 62K/W)   // 81 °C
//
// What fails: a temperature where a difference belongs and the other way
// round, a thermal resistance of zero or less, a limit below the ambient
// temperature. Each error names the argument, its value, the limit, and what
// to change.
//
// Everything here is the steady state; what a pulse heats needs a transient
// thermal impedance. The package cannot know whether a θJA from a data sheet
// fits a board: it depends on copper area, layers and air more than on the
// part.
package thermal
