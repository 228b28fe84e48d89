package charger

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed charge.go doc.go heat.go none.go setting.go window.go source.go
var Source embed.FS
