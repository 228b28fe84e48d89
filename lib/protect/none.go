package protect

import "ohmwright/units"

// none is what a function returns beside an error. It is a variable and not
// a composite literal because the engine, when it draws formulas from this
// source, checks it with Quantity as a plain number.
var none units.Quantity
