package table

import "embed"

// Source is the source of this package.
//
//go:embed at.go build.go doc.go entry.go heading.go none.go read.go source.go style.go table.go
var Source embed.FS
