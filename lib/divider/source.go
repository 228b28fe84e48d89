package divider

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed clamp.go doc.go feedback.go loaded.go measuring.go none.go plain.go reservoir.go settling.go source.go
var Source embed.FS
