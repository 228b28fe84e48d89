package builtin

import "ohmwright/units"

// Rating is what a part stands, and what it has to; Rated makes it.
type Rating struct {
	What   string         // "voltage"
	Limit  units.Quantity // what the maker allows
	Stress units.Quantity // what the circuit asks for
}

// Part says that a value is a part of the schematic:
//
//	Part("R5", Rtop)
//	Part("C3", Cout, Rated("voltage", 16V, Vout), Rated("ripple current", 1.2A, ripple.RMS))
//	Part("U1", "2 A step-down regulator", Rated("supply", 36V, Vin))
//
// The reference is letters and a number, and stands once in a design. What has
// no value in units, such as a circuit or a diode, is said as a text. Where the
// letters are those of a kind of part (R, RT, C, L, F, BT) and the value is of
// another dimension, a notice says so. Each
// rating is held as a requirement: its largest stress, whatever its sign, over
// all cases stays within the share of the rating that Derate allows, or within
// all of it. It stands by itself at the top level of a cell. Outside a note it
// does nothing.
func Part(reference string, value any, ratings ...Rating) {}

// Rated is one rating of a Part: its name, what the maker allows, and what the
// circuit asks for. The rating is a positive number without spread, the
// stress of the same dimension; a misuse panics with *units.Error.
func Rated(what string, rating, stress units.Quantity) Rating {
	switch {
	case what == "":
		panic(&units.Error{Msg: "a rating has no name", Hint: `say what is rated, Rated("voltage", 16V, Vout)`})
	case rating.HasSpread():
		panic(&units.Error{Msg: "the " + what + " rating, " + rating.String() + ", has spread", Hint: "a rating is one number: take Low of it"})
	case rating.Dim().Kind() != units.PlainScale:
		panic(&units.Error{Msg: "the " + what + " rating, " + rating.String() + ", has no share: it is a point on a scale", Hint: "write a Require for it, Require(Tj <= 125°C, …)"})
	case !(rating.SI() > 0):
		panic(&units.Error{Msg: "the " + what + " rating, " + rating.String() + ", is not above zero", Hint: "write what the maker allows; the sign of the stress does not count"})
	}
	if stress.Dim() != rating.Dim() && stress.SI() != 0 {
		panic(&units.Error{Msg: "the " + what + " rating is " + rating.String() + ", and the stress " + units.Nominal(stress).String(), Hint: "rating and stress are of one kind"})
	}
	return Rating{What: what, Limit: rating, Stress: stress}
}

// Derate is a rule for the whole note: how much of a rating may be used.
//
//	Derate("resistor power", 60%)
//	Derate("C", "voltage", 80%)
//
// With three arguments it is for parts whose reference starts with just these
// letters, and goes before one without them. Its arguments are written out.
func Derate(rule ...any) {}

// Waive lets the requirement with this identifier fail; the reason says why,
// who agreed, and when. What has no identifier of its own, a rating, is named
// by reference and what is rated: Waive("C3 voltage", "…"). Outside a note it
// does nothing.
func Waive(identifier, reason string) {}

// Case is a named operating case: inputs of the note and the values that they
// have in it,
//
//	Case("cold start", Vin, 18V, Ta, -20°C)
//
// All that depends on these inputs is computed once more, with the parts that
// the design chose, and every requirement is judged in it, too. Outside a note
// it does nothing.
func Case(name string, inputsAndValues ...units.Quantity) {}

// Measured holds what the bench says against what the note computes:
//
//	Measured(Vout, 4.97V ± 5mV, "2026-11-02, 5½-digit meter")
//
// The reading carries the error of the instrument; the text says when and with
// what. It is inside, may be inside, or outside of what was computed over all
// cases; outside counts as a failure. Outside a note it does nothing.
func Measured(computed, reading units.Quantity, how string) {}
