package loop

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed amplifier.go bode.go circuit.go complex.go design.go doc.go lead.go margins.go none.go place.go plant.go response.go source.go
var Source embed.FS
