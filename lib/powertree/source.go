package powertree

import "embed"

// Source is the source of this package.
//
//go:embed check.go compute.go day.go doc.go none.go order.go source.go stage.go tree.go
var Source embed.FS
