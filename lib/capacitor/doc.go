// Package capacitor computes what a capacitor really is in its circuit: the
// capacitance that bias, tolerance, temperature and age leave, the heat that a
// ripple current makes in it, and how long it lives.
//
//	c, err := capacitor.Ceramic(capacitor.CeramicInputs{
//		Printed: 47µF, Tolerance: 20%, Code: "X5R", Bias: 5.25V, Kept: Table("bias.csv"),
//		Coldest: -20°C, Hottest: 60°C, Age: 10·8766h, Ageing: 2.5%, Count: 4,
//	})
//	// c.Least is what a converter's output capacitor may be computed with
//
// Ceramic multiplies what takes capacitance away, each on its own side: bias
// and age only take, tolerance and temperature do both. For a part of class 2
// it refuses to go on without the curve over the bias: the printed value is
// not there. TemperatureCode reads the codes of EIA: X7R, Y5V, C0G.
//
// RippleCurrent adds the currents of several frequencies as the capacitor's
// rating counts them, ESR and Heating give the heat of its core, and Life the
// hours of an aluminium electrolytic capacitor. VoltageDerating holds a
// voltage against what is left of a rating.
//
// What fails: a bias or a frequency outside the curve, a temperature outside
// of what the code covers, a core above what the part stands, any quantity of
// another dimension. Each error names the argument, its value, the limit, and
// what to change.
//
// What the package cannot know: the curves of your part. Those of one code
// differ between makers and sizes by a factor of two and more, and so does
// what they call the end of life.
//
// What it does not cover: the dependence of a class-2 part on the size of the
// alternating voltage, loss of capacitance with frequency, self-resonance,
// dielectric absorption, supercapacitors, and the failure rates of handbooks.
package capacitor
