package loop

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed amplifier.go circuit.go doc.go margins.go none.go plant.go response.go source.go
var Source embed.FS
