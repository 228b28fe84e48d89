package preferred

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed colour.go doc.go eia96.go ladder.go marking.go none.go numeric.go pair.go pick.go rkm.go series.go source.go stock.go table.go two.go
var Source embed.FS
