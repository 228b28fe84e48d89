package stepdown

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed bootstrap.go currentmode.go currents.go doc.go inductance.go input.go limit.go losses.go none.go output.go saturation.go short.go skipping.go stage.go step.go timing.go voltagemode.go source.go
var Source embed.FS
