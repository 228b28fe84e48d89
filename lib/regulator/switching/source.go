package switching

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed core.go cycle.go doc.go edges.go filter.go inductor.go lockout.go none.go saturation.go start.go source.go
var Source embed.FS
