package powertree

import "ohmwright/units"

// none is what a function returns beside an error.
var none units.Quantity
