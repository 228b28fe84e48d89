package thermal

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed chain.go derating.go doc.go limits.go none.go paths.go rise.go sink.go source.go table.go
var Source embed.FS
