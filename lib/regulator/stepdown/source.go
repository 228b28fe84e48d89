package stepdown

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed bootstrap.go compensation.go currents.go doc.go inductance.go input.go limit.go loop.go losses.go output.go stage.go step.go timing.go source.go
var Source embed.FS
