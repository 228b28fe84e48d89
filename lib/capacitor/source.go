package capacitor

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed ceramic.go code.go current.go doc.go life.go none.go source.go voltage.go
var Source embed.FS
