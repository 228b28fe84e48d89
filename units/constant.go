package units

// Pi is the ratio of a circle's circumference to its diameter. It remembers
// that it is an angle: 2·Pi·f of a frequency comes out in rad/s, and an
// angular frequency divided by 2·Pi in Hz.
var Pi = Quantity{v: 3.14159265358979323846264338327950288419716939937510582097494459, d: computedMark, u: hiddenAngle(1)}

// Physical constants. Those that define the SI are exact (SI Brochure, 9th
// edition, table 1); the others are the CODATA 2022 recommended values, whose
// standard uncertainty in the last digits stands in brackets.
var (
	// SpeedOfLight is the speed of light in vacuum, 299 792 458 m/s, exact.
	SpeedOfLight = constant("299792458", "m/s")
	// Planck is the Planck constant, 6.626 070 15 × 10⁻³⁴ J·s, exact.
	Planck = constant("6.62607015e-34", "J·s")
	// ElementaryCharge is 1.602 176 634 × 10⁻¹⁹ C, exact.
	ElementaryCharge = constant("1.602176634e-19", "C")
	// Boltzmann is the Boltzmann constant, 1.380 649 × 10⁻²³ J/K, exact.
	Boltzmann = constant("1.380649e-23", "J/K")
	// Avogadro is the Avogadro constant, 6.022 140 76 × 10²³ 1/mol, exact.
	Avogadro = constant("6.02214076e23", "1/mol")
	// GasConstant is the molar gas constant, Avogadro · Boltzmann =
	// 8.314 462 618 153 24 J/(mol·K), exact.
	GasConstant = constant("8.31446261815324", "J/(mol·K)")
	// Faraday is the Faraday constant, Avogadro · ElementaryCharge =
	// 96 485.332 123 310 0184 C/mol, exact.
	Faraday = constant("96485.3321233100184", "C/mol")
	// StefanBoltzmann is 2π⁵k⁴/(15h³c²) = 5.670 374 419… × 10⁻⁸ W/(m²·K⁴),
	// exact but for the digits that are left out here.
	StefanBoltzmann = constant("5.670374419184429e-8", "W/(m²·K⁴)")
	// Epsilon0 is the electric constant, 8.854 187 8188(14) × 10⁻¹² F/m.
	Epsilon0 = constant("8.8541878188e-12", "F/m")
	// Mu0 is the magnetic constant, 1.256 637 061 27(20) × 10⁻⁶ H/m.
	Mu0 = constant("1.25663706127e-6", "H/m")
	// StandardGravity is the conventional acceleration of free fall,
	// 9.806 65 m/s², exact (3rd CGPM, 1901).
	StandardGravity = constant("9.80665", "m/s²")
)

// constant makes a constant of a number in a coherent SI unit, shown in its
// preferred one.
func constant(number, unit string) Quantity {
	q := MustParse(number + " " + unit)
	q.u = std.unlessPreferred(preferred(q.Dim()))
	return q
}
