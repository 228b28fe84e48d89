package inverting

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed coupling.go currentmode.go currents.go doc.go duty.go inductance.go input.go limit.go losses.go output.go sepic.go source.go stage.go start.go step.go stresses.go timing.go voltagemode.go zero.go
var Source embed.FS
