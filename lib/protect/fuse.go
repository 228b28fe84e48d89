package protect

import (
	"ohmwright/lib/argument"
	"ohmwright/lib/table"
	"ohmwright/units"
)

// FuseInputs are the arguments of Fuse.
type FuseInputs struct {
	Rated      units.Quantity // current printed on the fuse, A
	Family     string         // standard that it is rated by: "UL 248" or "IEC 60127"
	Share      units.Quantity // of Rated that it carries for years, no unit; left out: 75 % of UL 248, 100 % of IEC 60127
	Derating   table.Table    // share of Rated over the ambient, from °C to %; left out: Ambient is near that of the rating
	Ambient    units.Quantity // around the fuse, °C; with Derating
	Load       units.Quantity // largest lasting current, rms, A
	Supply     units.Quantity // highest DC voltage, V
	Voltage    units.Quantity // rated DC voltage, V
	Fault      units.Quantity // largest current that the supply gives into a short circuit, A
	Breaking   units.Quantity // rated breaking capacity at DC, A
	Resistance units.Quantity // of the fuse when it is cold, Ω; left out: zero
}

// FuseResult is what Fuse finds.
type FuseResult struct {
	FamilyShare      units.Quantity // of Rated for lasting current, no unit
	TemperatureShare units.Quantity // of Rated at Ambient, no unit
	Allowed          units.Quantity // lasting current, A
	Margin           units.Quantity // of Allowed above Load, A
	LeastRated       units.Quantity // rated current that carries Load, A
	VoltageMargin    units.Quantity // of Voltage above Supply, V
	BreakingMargin   units.Quantity // of Breaking above Fault, A
	Drop             units.Quantity // at Load with the cold resistance, V
	Loss             units.Quantity // at Load with the cold resistance, W
}

// Fuse holds a blow fuse against its load and its supply: lasting current,
// voltage, and the fault that it must break.
//
//	FamilyShare      = 75 % of UL 248, 100 % of IEC 60127, or share
//	TemperatureShare = derating at ambient
//	Allowed          = rated · FamilyShare · TemperatureShare
//	Margin           = Allowed − load
//	LeastRated       = load/(FamilyShare · TemperatureShare)
//	VoltageMargin    = voltage − supply
//	BreakingMargin   = breaking − fault
//	Drop             = load · resistance
//	Loss             = load · Drop
//
// Arguments: see FuseInputs; all currents and voltages above zero, Resistance,
// Ω, not below; Share and the shares of Derating above zero, Share not above 1;
// Ambient with Derating. It is an error outside of that, and where Load is
// above Allowed, Supply above Voltage, or Fault above Breaking.
//
//	f, err := protect.Fuse(protect.FuseInputs{
//		Rated: 5A, Family: "UL 248", Load: 3A, Supply: 32V, Voltage: 63V, Fault: 40A, Breaking: 50A,
//	})
//	// f.Allowed: 3.75 A
//
// Holds for steady current. What pulses do is for FusePulse.
//
// Source: the two families rate differently: a fuse of UL 248-14 opens at
// 135 % within an hour, one of IEC 60127 carries 150 % for that long; hence
// 75 % of the one and 100 % of the other (application guides of fuse makers,
// such as EDN, 26 September 1996, for the 75 %).
//
// Caution: an AC rating says nothing of DC, whose arc has no zero to go out
// at: take the DC voltage and breaking capacity. A fuse of the same printed
// current in the other family is another fuse. Local codes demand fuses in
// wires, and of a kind and size: they come first. A battery gives hundreds of
// amperes: the fuse belongs at its terminal.
func Fuse(in FuseInputs) (FuseResult, error) {
	const function = "protect.Fuse"
	resistance := argument.Resistance.OrZero(in.Resistance)
	if err := argument.First(function,
		argument.Current.Positive("Rated", in.Rated),
		oneOf("Family", in.Family, "UL 248", "IEC 60127"),
		argument.Share.Optional("Share", in.Share),
		argument.Current.Positive("Load", in.Load),
		argument.Voltage.Positive("Supply", in.Supply),
		argument.Voltage.Positive("Voltage", in.Voltage),
		argument.Current.Positive("Fault", in.Fault),
		argument.Current.Positive("Breaking", in.Breaking),
		argument.Resistance.NotNegative("Resistance", resistance),
	); err != nil {
		return FuseResult{}, err
	}
	familyShare := familyShareOf(in.Family, in.Share)
	temperatureShare, err := deratingAt(in.Derating, in.Ambient)
	if err := argument.First(function, err,
		argument.AtMost("Share", familyShare, "all of Rated", units.Number(1), "write a smaller share"),
	); err != nil {
		return FuseResult{}, err
	}
	allowed := in.Rated.Mul(familyShare).Mul(temperatureShare)
	if err := argument.First(function,
		atMost("Load", in.Load, "what the fuse carries for years at Ambient", allowed, "it would blow in operation; raise Rated, or lower Load or Ambient"),
		atMost("Supply", in.Supply, "the fuse's Voltage", in.Voltage, "its arc would not go out; choose a fuse with a higher DC voltage"),
		atMost("Fault", in.Fault, "the fuse's Breaking capacity", in.Breaking, "it would burst; choose a fuse with a higher breaking capacity, or put resistance before it"),
	); err != nil {
		return FuseResult{}, err
	}
	margin := allowed.Sub(in.Load)
	leastRated := in.Load.Div(familyShare.Mul(temperatureShare))
	voltageMargin := in.Voltage.Sub(in.Supply)
	breakingMargin := in.Breaking.Sub(in.Fault)
	drop := in.Load.Mul(resistance)
	loss := in.Load.Mul(drop)
	return FuseResult{
		FamilyShare:      familyShare,
		TemperatureShare: temperatureShare,
		Allowed:          allowed,
		Margin:           margin,
		LeastRated:       leastRated,
		VoltageMargin:    voltageMargin,
		BreakingMargin:   breakingMargin,
		Drop:             drop,
		Loss:             loss,
	}, nil
}

// familyShareOf is what a family carries for years, or what is given.
func familyShareOf(family string, share units.Quantity) units.Quantity {
	if argument.Given(share) {
		return share
	}
	if family == "UL 248" {
		return units.Number(0.75)
	}
	return units.Number(1)
}

// deratingAt reads the derating curve of a fuse, and is 1 where none is given.
func deratingAt(derating table.Table, ambient units.Quantity) (units.Quantity, error) {
	if !derating.Given() {
		return units.Number(1), unused("Ambient", ambient, "there is no Derating to read at it: give the curve of the data sheet, or leave Ambient out")
	}
	if err := argument.First("Derating", derating.Expect("the curve", "°C", "%"), argument.Temperature("Ambient", ambient)); err != nil {
		return none, err
	}
	share, err := derating.At(ambient)
	if err != nil {
		return none, err
	}
	return share, argument.Share.Positive("the share that Derating gives", share)
}

// FusePulseInputs are the arguments of FusePulse.
type FusePulseInputs struct {
	Integral  units.Quantity // I²t of one pulse, A²·s: from PulseIntegral or CapacitorPulse
	Melting   units.Quantity // nominal melting integral of the fuse, A²·s
	Pulses    units.Quantity // in the life of the fuse, at least ten seconds apart, no unit
	Withstand table.Table    // share of Melting over the number of pulses; left out: that below
}

// FusePulseResult is what FusePulse finds.
type FusePulseResult struct {
	Share        units.Quantity // of Melting that so many pulses may have, no unit
	Allowed      units.Quantity // integral of a pulse, A²·s
	Margin       units.Quantity // of Allowed above Integral, A²·s; below zero: it blows one day without a fault
	Used         units.Quantity // share of Allowed, no unit
	LeastMelting units.Quantity // integral of the fuse that bears the pulses, A²·s
}

// FusePulse holds the pulses of normal operation, such as inrush, against the
// melting integral of a fuse.
//
//	Share        = withstand at pulses
//	Allowed      = melting · Share
//	Margin       = Allowed − integral
//	Used         = integral/Allowed
//	LeastMelting = integral/Share
//
// Arguments: see FusePulseInputs; all above zero; Pulses from 1 to 100 000 with
// the usual curve, else in the range of Withstand. It is an error outside of
// that. An Integral above Allowed is none: Margin is below zero.
//
//	p, err := protect.FusePulse(protect.FusePulseInputs{Integral: 0.45A²·s, Melting: 2A²·s, Pulses: In(10000, "1")})
//	// p.Allowed: 0.58 A²·s
//
// The usual curve of wires: 48 %, 38 %, 29 % and 22 % of the melting integral
// for a hundred, a thousand, ten thousand and a hundred thousand pulses,
// interpolated over the logarithm of their number; below a hundred, 48 %.
//
// Holds for pulses shorter than some 10 ms, in which no heat escapes, and a
// fuse that is cool before each.
//
// Source: Littelfuse fuse guide 2017, chart 2.
//
// Caution: each pulse stretches the element a little, and it breaks of
// fatigue. A fuse that carries load or sits in hot air has less left: count
// its melting integral down by the square of the share it is loaded.
func FusePulse(in FusePulseInputs) (FusePulseResult, error) {
	const function = "protect.FusePulse"
	if err := argument.First(function,
		argument.JouleIntegral.Positive("Integral", in.Integral),
		argument.JouleIntegral.Positive("Melting", in.Melting),
		argument.Number.Positive("Pulses", in.Pulses),
	); err != nil {
		return FusePulseResult{}, err
	}
	if err := argument.First(function,
		argument.AtLeast("Pulses", in.Pulses, "a single one", units.Number(1), "write how many the fuse sees in its life"),
	); err != nil {
		return FusePulseResult{}, err
	}
	withstand, err := withstandOr(in.Withstand)
	if err := argument.First(function, err); err != nil {
		return FusePulseResult{}, err
	}
	share, err := withstand.At(in.Pulses)
	if err := argument.First(function, err); err != nil {
		return FusePulseResult{}, err
	}
	if err := argument.First(function, argument.Share.Positive("the share that Withstand gives", share)); err != nil {
		return FusePulseResult{}, err
	}
	allowed := in.Melting.Mul(share)
	margin := allowed.Sub(in.Integral)
	used := in.Integral.Div(allowed)
	leastMelting := in.Integral.Div(share)
	return FusePulseResult{Share: share, Allowed: allowed, Margin: margin, Used: used, LeastMelting: leastMelting}, nil
}

// withstandOr is the curve that is given, or the usual one.
func withstandOr(given table.Table) (table.Table, error) {
	if !given.Given() {
		return table.Text("pulses [1] log, share of the melting integral [%]\n1, 48\n100, 48\n1000, 38\n10000, 29\n100000, 22")
	}
	return given, given.Expect("Withstand", "1", "%")
}
