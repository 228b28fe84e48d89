// Package ripple computes what makes a direct voltage of an alternating one
// and what keeps it smooth: rectifiers with their reservoir, hold-up after the
// source has failed, RC and LC filters and chains of them, and the time in
// which capacitors charge and become safe to touch.
//
//	r, err := ripple.RectifierWithSource(ripple.RectifierInputs{
//		Arrangement: ripple.Bridge, Input: Range(21.6V, 27V, 29.7V), Frequency: 50Hz,
//		Diode: 0.9V, Resistance: 2.5Ω, Capacitance: 4.7mF ± 20%, LoadPower: 12W,
//	})
//	// r.Valley is what the regulator has left, r.CapacitorRMS what heats the reservoir
//
//	source ──▷|── resistance ──┬── filter ──┬── regulator
//	                       reservoir      hold-up
//	source ────────────────────┴────────────┴──
//
// Rectifier solves the angles of a stiff source exactly and shows the usual
// approximation beside them; RectifierWithSource integrates the pulses that a
// real transformer gives. HoldUp and HoldUpCapacitor count how long the
// reservoir feeds the load alone. RC, LC and Damping are single filters with
// their formulas, Filter is a chain with losses, each section loaded by the
// next. RCTime, Inrush and Bleed are about charging and discharging.
//
// What a capacitor really is when bias, temperature and years have worked on
// it, and how long it lives, is in package capacitor: give these functions
// what is left.
//
// What fails: a load that the source or the reservoir does not carry, a
// filter without loss at its resonance, any quantity of another dimension.
// Each error names the argument, its value, the limit, and what to change.
//
// Mains: these functions know nothing of isolation, earth, fuses or creepage.
// What stands before the isolation is for those who may work there, by the
// local code; energy stays in capacitors after the plug is out (Bleed).
//
// What the package does not cover: voltage multipliers, inductor-input
// (choke) rectifiers, three phases, power-factor correction, the inductance
// of a transformer, ESR inside the rectifier's solution, and filters of
// saturating inductors.
package ripple
