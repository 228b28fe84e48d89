package stepup

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed currentmode.go currents.go doc.go inductance.go input.go inrush.go limit.go losses.go output.go rectifier.go saturation.go source.go stage.go step.go timing.go voltagemode.go zero.go
var Source embed.FS
