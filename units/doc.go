// Package units holds quantities: numbers with a dimension, a unit and a
// spread. It knows what an electronics designer means by 4.7kΩ, 62°C/W, 14dBm
// and 10kΩ ± 1%, and refuses what would be wrong without a word.
//
// A [Quantity] is a small immutable value. Its number is in SI; its dimension
// is checked by every operation; the unit that it was given in, or asked for
// with [In], stays with it:
//
//	vin := units.MustParse("24V")
//	r := units.MustParse("4.7kΩ")
//	i := vin.Div(r)
//	fmt.Println(i)                            // 5.106 mA
//	fmt.Println(i.Mul(units.MustParse("2h"))) // 36.77 C
//
// Arithmetic panics with an [*Error] where it makes no sense, as an index out
// of range does; the engine turns that into an error of the cell:
//
//	vin.Add(i) // cannot add 24 V (voltage) and 5.106 mA (current)
//
// Reading returns errors: [Parse] for text, [ScanLiteral] for the source of a
// cell, [ParseRKM] for the codes on parts. What [Quantity.Text] writes in full
// reads back to the same value.
//
// Four kinds of scale are told apart ([Kind]). 5 V, 40 K and 3 are plain
// quantities, which add and multiply. 25 °C is a point on the temperature
// scale: points differ by kelvins and have no sum or product. 14 dBm is a
// level: levels differ by gains. 3 dB is a gain: gains add.
//
// Beyond the dimension, a unit may say what is counted: radians, squares of a
// film, bits. That is carried along softly, so that 2·[Pi]·f is in rad/s, a
// sheet resistance times squares in ohms, and bit/s never become Hz.
//
// What the package cannot catch: energy and torque have one dimension, and so
// have 1/s that is a frequency and 1/s that is an angular frequency, where
// neither a unit nor Pi says which: 1/Sqrt(L*C) is shown in Hz until it is
// asked for in rad/s. Nor does it know whether a voltage is a peak or an rms
// value.
//
// The units, their prefixes and what printing makes of them stand in
// table.txt, with the source of each figure.
//
// # Spread
//
// [Range], [Band] and [Tolerance] say how a value spreads. Placed in a [Study]
// it carries an ensemble: its number in every corner of its sources, along a
// sweep of each, and on boards drawn at random. Arithmetic and the functions
// of this package work in every one of these cases, so that one part used
// twice stays one part. A value without spread carries nothing and costs
// nothing.
package units
