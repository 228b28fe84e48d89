// Package stepup computes step-up (boost) regulators: duty and currents over
// the input and load range, the inductor, both capacitors, the rectifier,
// losses and efficiency, what the regulator's own limits leave, the plant of
// its control loop, and what happens when the input is switched on.
//
//	input ──┬── inductor ──┬── rectifier ──┬── output
//	     capacitor       switch         capacitor
//	        │              │               │
//	        └──────────────┴───────────────┴── ground
//
// A Stage says what is switched; every function takes one:
//
//	stage := stepup.Stage{
//		Input: Range(3.0V, 3.7V, 4.2V), Output: 12V, Load: Range(20mA, 150mA, 250mA),
//		Frequency: 1MHz, Inductance: 6.8µH ± 20%, Switch: 150mΩ, Diode: 0.4V, Winding: 60mΩ,
//	}
//	i, err := stepup.Currents(stage)
//	// i.Peak, i.Boundary, i.OutputCapacitorRMS …
//
// Give Input and Load as ranges and read each result at its worst: duty,
// switch current, output ripple and losses at the lowest input, the ripple of
// the inductor's current where the input comes nearest to half the output.
//
// Below the boundary of continuous conduction the current of a diode, or of
// a synchronous rectifier that opens at zero, rests for a part of each period.
// Every function goes by that in each case of a value with spread by itself;
// both sides agree at the boundary. Forced says that the rectifier lets the
// current reverse, which never rests.
//
// A step-up regulator has no protection against a short circuit: from the
// input the current flows through inductor and rectifier whatever its switch
// does. Nor can it switch its output off: that is then the input, less a
// diode. Where that matters, a fuse or a load switch stands before it or
// behind it.
//
// What holds throughout: a settled state at a fixed frequency; ramps that are
// straight, so the output ripple is small beside the output and L/R long
// beside a period; an inductance that does not change with current (give it
// the tolerance that it has hot and at its peak current, or ask Saturation);
// resistive drops taken at the inductor's mean current.
//
// What fails: an input that is not below the output, an output that the
// resistances do not let the stage reach, a diode that is told to conduct
// backwards, any quantity of another dimension. Each error names the argument,
// its value, the limit, and what to change.
//
// Core loss, soft start, lockout divider and input filter are in package
// switching, the feedback divider in package divider, margins and compensation
// in package loop, temperatures in package thermal.
//
// What the package does not cover: the frequency that falls in a pulse-skipping
// or burst mode, coupled inductors and several phases, and interference.
package stepup
