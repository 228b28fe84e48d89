package protect

import (
	"math"

	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// SurgeInputs are the arguments of Surge.
type SurgeInputs struct {
	Suppressor Suppressor
	Level      units.Quantity // of the generator without load, V
	Generator  units.Quantity // its impedance, Ω; left out: 2 Ω
	Coupling   units.Quantity // of the coupling network, Ω; left out: none
	Series     units.Quantity // between the terminal and the clamp, Ω; left out: none
	Duration   units.Quantity // of the current, to half of its peak, s; left out: 20 µs, and 50 µs where Coupling is given
	Rated      units.Quantity // pulse power of the clamp, W
	RatedTime  units.Quantity // length of the pulse for which Rated holds, to half of its peak, s
	Curve      table.Table    // pulse power over its length, from s to W; left out: the law of the root
	Working    units.Quantity // highest voltage in operation, V
	Limit      units.Quantity // highest voltage that the protected part survives, V
}

// SurgeResult is what Surge finds.
type SurgeResult struct {
	Breakdown         units.Quantity // at the clamp's temperature, V
	DynamicResistance units.Quantity // of the clamp, Ω
	Impedance         units.Quantity // of all in the way of the surge but the clamp, Ω
	Current           units.Quantity // peak through the clamp, A
	Voltage           units.Quantity // peak across the clamp and the part behind it, V
	Margin            units.Quantity // of Limit above Voltage, V; below zero: too much comes through
	Power             units.Quantity // peak in the clamp, W
	Allowed           units.Quantity // power of a pulse of this length, W
	PowerMargin       units.Quantity // of Allowed above Power, W; below zero: the clamp dies
	Energy            units.Quantity // in the clamp, J
	Integral          units.Quantity // I²t that a fuse before the clamp sees, A²·s
}

// Surge computes what a surge of IEC 61000-4-5 does at a clamp: current, what
// it lets through, and its own share of the energy.
//
//	Impedance   = generator + coupling + series
//	Current     = (level − Breakdown)/(Impedance + DynamicResistance), not below 0
//	Voltage     = Breakdown + DynamicResistance · Current, not above level
//	Margin      = limit − Voltage
//	Power       = Voltage · Current
//	Allowed     = rated · √(rated time/duration), or by curve, and less at temperature: see PulsePower
//	PowerMargin = Allowed − Power
//	Energy      = Power · duration/ln 2
//	Integral    = Current² · duration/(2 · ln 2)
//
// with Breakdown and DynamicResistance as Clamp finds them.
//
// Arguments: see SurgeInputs; Level, Rated, RatedTime, Working and Limit above
// zero, the resistances not below zero, Generator above zero. It is an error
// outside of that, and where Clamp has one. Too much Voltage or Power is none:
// the margins are below zero.
//
//	s, err := protect.Surge(protect.SurgeInputs{
//		Suppressor: tvs, Level: 1kV, Coupling: 40Ω, Rated: 600W, RatedTime: 1ms, Working: 32V, Limit: 60V,
//	})
//
// Holds for the combination wave, 1.2/50 µs without load and 8/20 µs into a
// short circuit. Energy and Integral are those of an exponential with that
// time to half, which is more than the 8/20 wave has: an upper bound. The same
// holds for Current, since the generator's impedance is the ratio of its peaks.
// Behind a resistance of some ohms the current keeps the shape of the voltage,
// 50 µs to half: that is taken where Coupling is given; with Series alone, write
// Duration: 50µs.
//
// Source: IEC 61000-4-5, from memory: 2 Ω between the lines of a supply, 12 Ω
// (10 Ω more) from a line to earth, 42 Ω (40 Ω more) for signals; levels 0.5,
// 1, 2 and 4 kV.
//
// Caution: a clamp that a surge overloads fails short first: see FailedShort.
// The surge that the clamp diverts must have a way back that is not the
// signal ground of the board.
func Surge(in SurgeInputs) (SurgeResult, error) {
	const function = "protect.Surge"
	generator, duration := orElse(in.Generator, units.MustParse("2 Ω")), orElse(in.Duration, units.MustParse("20 µs"))
	if argument.Given(in.Coupling) && !argument.Given(in.Duration) {
		duration = units.MustParse("50 µs")
	}
	coupling, series := argument.Resistance.OrZero(in.Coupling), argument.Resistance.OrZero(in.Series)
	if err := argument.First(function,
		in.Suppressor.check(),
		argument.Voltage.Positive("Level", in.Level),
		argument.Resistance.Positive("Generator", generator),
		argument.Resistance.NotNegative("Coupling", coupling),
		argument.Resistance.NotNegative("Series", series),
		argument.Time.Positive("Duration", duration),
		argument.Power.Positive("Rated", in.Rated),
		argument.Time.Positive("RatedTime", in.RatedTime),
		argument.Voltage.Positive("Working", in.Working),
		argument.Voltage.Positive("Limit", in.Limit),
	); err != nil {
		return SurgeResult{}, err
	}
	if err := in.Suppressor.fits(function, in.Working, in.Limit); err != nil {
		return SurgeResult{}, err
	}
	if _, err := PulsePower(PulsePowerInputs{Rated: in.Rated, RatedTime: in.RatedTime, Time: duration, Curve: in.Curve, Temperature: in.Suppressor.Temperature}); err != nil {
		return SurgeResult{}, argument.First(function, err)
	}
	ln2 := units.Number(math.Ln2)
	breakdown := breakdownOf(in.Suppressor)
	dynamicResistance := resistanceOf(in.Suppressor)
	impedance := generator.Add(coupling).Add(series)
	excess := units.Max(in.Level.Sub(breakdown), argument.Voltage.OrZero(none))
	current := excess.Div(impedance.Add(dynamicResistance))
	voltage := units.Min(in.Level, breakdown.Add(dynamicResistance.Mul(current)))
	margin := in.Limit.Sub(voltage)
	power := voltage.Mul(current)
	temperature, full, zero := orElse(in.Suppressor.Temperature, units.MustParse("25 °C")), units.MustParse("25 °C"), units.MustParse("150 °C")
	temperatureShare := shareLeft(temperature, full, zero)
	atRoom := in.Rated.Mul(units.Sqrt(in.RatedTime.Div(duration)))
	if in.Curve.Given() {
		read, err := in.Curve.At(duration)
		if err := argument.First(function, err); err != nil {
			return SurgeResult{}, err
		}
		atRoom = read
	}
	allowed := atRoom.Mul(temperatureShare)
	powerMargin := allowed.Sub(power)
	energy := power.Mul(duration).Div(ln2)
	integral := current.Mul(current).Mul(duration).Div(ln2).Div(units.Number(2))
	return SurgeResult{
		Breakdown:         breakdown,
		DynamicResistance: dynamicResistance,
		Impedance:         impedance,
		Current:           current,
		Voltage:           voltage,
		Margin:            margin,
		Power:             power,
		Allowed:           allowed,
		PowerMargin:       powerMargin,
		Energy:            energy,
		Integral:          integral,
	}, nil
}
