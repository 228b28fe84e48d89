// Package solar computes whether a panel and a battery carry a load through the
// year: the panel that a load needs, the battery for days without sun, and the
// state of charge month by month.
//
//	y, err := solar.Year(solar.YearInputs{
//		Sun: sun, Panel: 1W, Kept: 50%, Load: 30mW, Battery: 1.8Wh,
//	})
//
// What fails: a table of the sun that lacks a month, a negative or missing
// argument. A panel that is too small is no error: Missing is above zero, and
// Worst says in which month.
//
// What it cannot know: weather. A table of monthly means hides the ten dark days
// in a row; that is what Battery for days of autonomy is for. Nor does it know
// shade, snow, dirt, or the tilt for which the table was made: take the table for the
// tilt of the panel.
//
// Caution: lithium cells burn: use protected cells or certified packs, no
// charging below 0 °C, no battery in the sun behind glass, and the rules of the
// place. Lead-acid batteries give off hydrogen: air the place. Panels of more
// than a few in series carry dangerous direct voltage that no switch turns off:
// leave them to a licensed electrician.
package solar
