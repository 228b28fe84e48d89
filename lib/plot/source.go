package plot

import "embed"

// Source is the source of this package.
//
//go:embed check.go doc.go figure.go none.go source.go steps.go
var Source embed.FS
