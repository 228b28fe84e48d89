// Package switching holds what all switching regulators share, whichever way
// their switch, inductor and rectifier are joined: the current of the
// inductor in one period and its saturation, what inductor and edges lose, the
// start, the under-voltage lockout and the input filter.
//
//	c, err := switching.Cycle(switching.CycleInputs{
//		OnVoltage: 19V, OffVoltage: 5.4V, Inductance: 22µH ± 20%, Frequency: 400kHz, Mean: Range(0.15A, 0.8A, 1.5A),
//	})
//	// c.Peak, c.Boundary, c.Conduction …
//
// The packages of the regulators (stepdown, stepup and others) know which
// voltage lies across the inductor, what its mean current is, and which
// capacitor takes which part of it; they build on this one. Use it by itself
// for a topology that has no package.
//
// What fails: a voltage, current or frequency that cannot be, a quantity of
// another dimension. Each error names the argument, its value, the limit, and
// what to change.
//
// What the package cannot know: a frequency that changes with the load, and
// what layout and coupling add.
package switching
