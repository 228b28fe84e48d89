// Package stepdown computes step-down (buck) regulators: duty and currents
// over the input and load range, the inductor, both capacitors, losses and
// efficiency, and what the regulator's own limits leave.
//
//	input ──┬── high switch ──┬── inductor ──┬── output
//	     capacitor     low switch or      capacitor
//	        │             diode              │
//	        └─────────────────┴──────────────┴── ground
//
// A Stage says what is switched; every function takes one:
//
//	stage := stepdown.Stage{
//		Input: Range(18V, 24V, 32V), Output: 5V, Load: Range(0.15A, 0.8A, 1.5A),
//		Frequency: 400kHz, Inductance: 22µH ± 20%, HighSwitch: 150mΩ, Diode: 0.5V,
//	}
//	i, err := stepdown.Currents(stage)
//	// i.Peak, i.Boundary, i.OutputCapacitorRMS …
//
// Give Input and Load as ranges and read each result at its worst: the
// corner differs from one to the next. The duty is longest at the lowest
// input, the ripple largest at the highest, the input capacitor's current
// largest where the duty comes nearest to a half.
//
// Below the boundary of continuous conduction the current of a diode, or of
// a low switch that opens at zero, rests for a part of each period. Every
// function goes by that in each case of a value with spread by itself; both
// sides agree at the boundary. Forced says that the low switch lets the
// current reverse, which never rests.
//
// What holds throughout: a settled state at a fixed frequency; ramps that are
// straight, so the output ripple is small beside the output and L/R long
// beside a period; an inductance that does not change with current (give it
// the tolerance that it has hot and at its peak current, or ask Saturation);
// resistive drops taken at the load current, which below the boundary leaves
// out millivolts.
//
// What fails: an input that does not exceed the output and the drops, a
// diode that is told to conduct backwards, any quantity of another dimension.
// Each error names the argument, its value, the limit, and what to change.
//
// The feedback divider is in package divider (FeedbackUpper, FeedbackLower,
// FeedbackOutput), temperatures are in package thermal; soft start, lockout
// divider, input filter and the core's loss are in package switching.
//
// The feedback loop is in package loop; VoltageMode and CurrentMode make the
// plant of a stage for it.
//
// What the package does not cover: bursts of several pulses, control by a
// fixed on-time or by hysteresis, a limit that lowers the output while it
// folds back, coupled inductors and several phases, and interference.
package stepdown
