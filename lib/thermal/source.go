package thermal

import "embed"

// Source is the source of this package, from which formulas are drawn.
//
//go:embed air.go bessel.go board.go chain.go copper.go coupled.go curvepulse.go derating.go doc.go foster.go leakage.go limits.go mesh.go network.go none.go paths.go plate.go psi.go pulse.go rise.go settled.go settledcurve.go sink.go source.go table.go train.go vias.go
var Source embed.FS
