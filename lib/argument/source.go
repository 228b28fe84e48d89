package argument

import "embed"

// Source is the source of this package.
//
//go:embed argument.go source.go
var Source embed.FS
