package inverting

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/regulator/loop"
	"ohmwright/units"
)

// RightHalfPlaneZeroResult is what RightHalfPlaneZero finds.
type RightHalfPlaneZeroResult struct {
	LoadResistance units.Quantity // output/load, Ω
	Above          units.Quantity // zero if the coupling capacitor holds its voltage at it, Hz; an inverting stage has only this
	Below          units.Quantity // zero if the coupling capacitor follows, Hz; without one as Above
	Zero           units.Quantity // the lower of the two, Hz
	Crossover      units.Quantity // highest sensible one of the loop, Hz
}

// RightHalfPlaneZero computes the zero in the right half plane: with a longer
// duty the output first falls, because its current comes in the off-time.
//
//	LoadResistance = size/load, where size is that of the output
//	Above          = LoadResistance · (1 − Duty)²/(2π · Duty · together)
//	Below          = Above; of a SEPIC that is not Coupled LoadResistance · (1 − Duty)²/(2π · Duty² · first)
//	Zero           = lower of the two
//	Crossover      = lower of Zero/5 and frequency/10
//
// with Duty and together as Currents finds them. Above holds far above
// CouplingResonance, Below far below it.
//
// Arguments: Stage, of which Load, A, is above zero here. It is an error
// outside of that.
//
//	z, err := inverting.RightHalfPlaneZero(stage)
//	Require(Crossover <= z.Crossover, "the loop is slow enough")
//
// Give Input as a range and the largest load: the zero is lowest at the
// lowest input. Common practice puts the crossover at a third to a fifth of
// it.
//
// Holds in continuous conduction; below the boundary the zero lies far above.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics, table
// 8.2 (buck-boost), from memory; Below from the average of a SEPIC's equations
// with the mean current of the coupling capacitor zero.
//
// Caution: a larger inductor lowers it. No compensation takes its phase back.
func RightHalfPlaneZero(stage Stage) (RightHalfPlaneZeroResult, error) {
	if err := argument.First("inverting.RightHalfPlaneZero", stage.loaded()); err != nil {
		return RightHalfPlaneZeroResult{}, err
	}
	return stage.zero(), nil
}

func (s Stage) zero() RightHalfPlaneZeroResult {
	two, five, ten := units.Number(2), units.Number(5), units.Number(10)
	d := s.duty()
	loadResistance := s.size().Div(s.Load)
	effective := loadResistance.Mul(d.OffShare).Mul(d.OffShare)
	turn := two.Mul(units.Pi).Mul(d.Duty)
	above := effective.Div(turn.Mul(s.together()))
	below := above
	if s.SEPIC && !s.Coupled {
		below = effective.Div(turn.Mul(d.Duty).Mul(s.Inductance))
	}
	lower := units.Min(above, below)
	return RightHalfPlaneZeroResult{
		LoadResistance: loadResistance,
		Above:          above,
		Below:          below,
		Zero:           lower,
		Crossover:      units.Min(lower.Div(five), s.Frequency.Div(ten)),
	}
}

// PlantInputs are the arguments of Plant.
type PlantInputs struct {
	Stage       Stage          // Load above zero
	Capacitance units.Quantity // at the output, with its bias, F
	ESR         units.Quantity // its equivalent series resistance, Ω; left out: none
	PowerStage  units.Quantity // peak of the switch current per volt of the control voltage, A/V
	Quality     units.Quantity // of the sampling at half the switching frequency, no unit; left out: not counted
}

// PlantResult is what Plant finds.
type PlantResult struct {
	Gain      units.Quantity // at low frequency, output per control voltage, no unit
	LoadPole  units.Quantity // Hz
	ESRZero   units.Quantity // Hz; 0 without ESR
	RightZero units.Quantity // Hz
	Plant     loop.Plant     // for loop.Margins
}

// Plant computes what the control voltage does to the output of a stage with
// current-mode control, for the functions of package loop.
//
//	LoadPole  = (1 + Duty)/(2π · LoadResistance · capacitance)
//	Gain      = power stage · LoadResistance · (1 − Duty)/(1 + Duty)
//	ESRZero   = 1/(2π · ESR · capacitance)
//	RightZero = Zero
//
// with Duty as function Duty finds it, LoadResistance and Zero as
// RightHalfPlaneZero does.
//
// Arguments: Stage, of which Load, A, is above zero here; Capacitance, F, and
// PowerStage, A/V, above zero; ESR, Ω, and Quality above zero if
// given. It is an error outside of that.
//
//	p, err := inverting.Plant(inverting.PlantInputs{Stage: stage, Capacitance: 44µF, PowerStage: 6A/V})
//	m, err := loop.Margins(p.Plant, amplifier)
//
// Holds in continuous conduction, with a load that is a resistance, far below
// the switching frequency unless Quality is given; of a SEPIC below
// CouplingResonance. Sign: the amplifier of an inverting stage turns it back.
//
// Source: Erickson and Maksimović, Fundamentals of Power Electronics, chapter
// 12 (simple model of the current-programmed buck-boost), from memory.
//
// Caution: as RightHalfPlaneZero; a load that draws constant current or power
// moves LoadPole down.
func Plant(in PlantInputs) (PlantResult, error) {
	const function = "inverting.Plant"
	if err := argument.First(function,
		in.Stage.loaded(),
		argument.Capacitance.Positive("Capacitance", in.Capacitance),
		argument.Resistance.Optional("ESR", in.ESR),
		argument.Transconductance.Positive("PowerStage", in.PowerStage),
		argument.Share.Optional("Quality", in.Quality),
	); err != nil {
		return PlantResult{}, err
	}
	one, turn := units.Number(1), units.Number(2).Mul(units.Pi)
	d, z := in.Stage.duty(), in.Stage.zero()
	raised := one.Add(d.Duty)
	loadPole := raised.Div(turn.Mul(z.LoadResistance).Mul(in.Capacitance))
	gain := in.PowerStage.Mul(z.LoadResistance).Mul(d.OffShare).Div(raised)
	plant := loop.Plant{
		Gain: gain, Frequency: in.Stage.Frequency, Poles: []units.Quantity{loadPole},
		RightZero: z.Zero, SamplingQuality: in.Quality,
	}
	esrZero := loadPole.Sub(loadPole)
	if argument.Given(in.ESR) {
		esrZero = one.Div(turn.Mul(in.ESR).Mul(in.Capacitance))
		plant.Zeros = []units.Quantity{esrZero}
	}
	return PlantResult{Gain: gain, LoadPole: loadPole, ESRZero: esrZero, RightZero: z.Zero, Plant: plant}, nil
}
