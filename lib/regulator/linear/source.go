package linear

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed capacitor.go curve.go doc.go dropout.go headroom.go heat.go input.go loss.go none.go reverse.go ripple.go setting.go source.go step.go surge.go
var Source embed.FS
