// Package inverting computes regulators whose output may be above or below
// their input: the inverting buck-boost, which makes a negative voltage, and
// the SEPIC, which makes a positive one.
//
//	input ──┬── switch ──┬── rectifier ──┬── output, below ground
//	     capacitor    inductor       capacitor
//	        └────────────┴───────────────┴── ground
//
//	input ──┬── inductor ──┬── coupling ──┬── rectifier ──┬── output
//	     capacitor       switch       second inductor  capacitor
//	        └──────────────┴──────────────┴───────────────┴── ground
//
// Signs: Output of an inverting stage is below zero, as the rail is called;
// that of a SEPIC is above zero. Every current and every other voltage is a
// size and above zero, Load too.
//
// A Stage says what is switched; every function takes one:
//
//	rail := inverting.Stage{
//		Input: Range(9V, 12V, 15V), Output: -5V, Load: Range(5mA, 40mA, 150mA),
//		Frequency: 500kHz, Inductance: 22µH ± 20%, Switch: 0.3Ω, Diode: 0.4V,
//	}
//	i, err := inverting.Currents(rail)
//	// i.Peak, i.Boundary, i.OutputCapacitorRMS …
//	_, err = inverting.Duty(inverting.Stage{Input: 12V, Output: 5V, Load: 1A, Frequency: 500kHz})
//	// Output is 5 V; it must be below ground, 0 V: …
//
// Both forms store in the on-time all that they give in the off-time, so the
// current in switch and rectifier is load/(1 − Duty), more than the load. In a
// SEPIC it is that of both inductors together: across both lies the input in
// the on-time and the output in the off-time, so that one current through
// both in parallel tells it all (Currents). What each of them and the coupling
// capacitor carries is in Inductors and CouplingRipple. Coupled says that both
// are wound on one core, one to one: then half the inductance makes the same
// ripple.
//
// Give Input and Load as ranges and read each result at its worst: the switch
// current is largest at the lowest input, the ripple at the highest. Below the
// boundary of continuous conduction the current rests for a part of each
// period; every function goes by that in each case by itself, and both sides
// agree at the boundary.
//
// What holds throughout: a settled state at a fixed frequency; ramps that are
// straight, so ripples are small beside their voltages, that of the coupling
// capacitor too; an inductance that does not change with current (give it the
// tolerance that it has hot and at its peak current); resistive drops taken at
// load/(1 − Duty), which below the boundary leaves out millivolts.
//
// What fails: an output with the wrong sign, an input so low that the drops
// leave no duty that reaches the output, a diode that is told to conduct
// backwards, any quantity of another dimension. Each error names the argument,
// its value, the limit, and what to change.
//
// What can go wrong with a step-down regulator that is used inverted: its
// ground is the output, so it must stand input and output together (Stresses);
// its enable, power-good and clock pins are at the output's level too and need
// a level shift; and before it starts, its own current and the capacitor from
// its input to its ground pull the output above ground (Lift). The input
// current comes in pulses, and a step of it reaches the output through that
// capacitor.
//
// The loop's plant is in CurrentMode and VoltageMode, for package loop. Core
// losses, soft start, lockout and input filter are in package switching, the
// feedback divider is in package divider, temperatures in package thermal.
//
// What the package does not cover: the Ćuk and Zeta forms, windings other than
// one to one, what the coupling resonance does to the phase of a loop, the
// frequency that falls in a pulse-skipping mode, short circuits period by
// period, snubbers, and interference.
package inverting
