package stepdown

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed compensation.go core.go currents.go doc.go filter.go inductance.go input.go limit.go lockout.go loop.go losses.go none.go output.go stage.go start.go step.go timing.go source.go
var Source embed.FS
