package divider

import (
	"ohmwright/units"
)

var q = units.MustParse

// rounded is the tolerance of values that are written here with six figures.
const rounded = 1e-6
