package battery

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed doc.go headroom.go modes.go none.go peukert.go pulse.go runtime.go source.go
var Source embed.FS
