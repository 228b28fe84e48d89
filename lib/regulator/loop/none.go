package loop

import "ohmwright/units"

// none is what is left out. It is a variable and not a composite literal
// because the engine, when it draws formulas from this source, checks it with
// Quantity as a plain number.
var none units.Quantity
