package ripple

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed doc.go filter.go holdup.go inrush.go integral.go ladder.go lc.go load.go none.go pulse.go rc.go rectifier.go source.go source_rectifier.go
var Source embed.FS
