// Package drawing holds a list of parts that a drawing tool exported against
// the parts that a design has computed.
//
// Read takes the list apart: references and what is written beside them.
// ReadValue makes of that a value, its tolerance and its ratings, as people
// write them:
//
//	v, err := drawing.ReadValue("4k7 1% 0603", "Ω") // 4.7 kΩ, 1 %
//	v, err := drawing.ReadValue("47µ/16V", "F")     // 47 µF, 16 V
//	v, err := drawing.ReadValue("104", "F")         // an error: a number without a unit
//
// Compare lists every difference. It cannot know whether a part that the
// design does not compute should be there: it says that it is not.
package drawing
