package solar

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed doc.go none.go size.go year.go source.go
var Source embed.FS
