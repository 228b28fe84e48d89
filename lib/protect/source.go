package protect

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed chain.go clamp.go clearing.go discharge.go disconnect.go doc.go failed.go fuse.go hotplug.go inductive.go inrush.go limit.go none.go pulse.go pulsepower.go resettable.go response.go reverse.go safearea.go slope.go surge.go tripped.go source.go
var Source embed.FS
