package cell

import (
	"slices"
	"strings"

	"ohmwright/units"
)

// lettered is what the letters of a reference say of a part where the trade's
// standards agree: class letters of IEC 81346-2, IEEE 315, both from memory. F
// is a fuse, and by IEC any protection, such as an arrester for its voltage. Q,
// D, U, X and the like differ between the two, or have no value of one kind.
var lettered = map[string]struct {
	parts, value string
	units        []string
}{
	"R":  {"resistors", "a resistance in Ω", []string{"1Ω"}},
	"RT": {"thermistors", "a resistance in Ω", []string{"1Ω"}},
	"C":  {"capacitors", "a capacitance in F", []string{"1F"}},
	"L":  {"inductors", "an inductance in H", []string{"1H"}},
	"F":  {"fuses", "a current in A", []string{"1A", "1V"}},
	"BT": {"batteries", "a voltage in V or a charge in mAh", []string{"1V", "1C", "1J"}},
}

// Unusual says how the value of a part goes against the letters of its
// reference, in whatever case these are; "" if it does not. Companies have
// letters of their own, so this stops nothing.
func (p *PartOf) Unusual() string {
	kind, known := lettered[strings.ToUpper(Letters(p.Reference))]
	is := func(q units.Quantity) bool {
		return slices.ContainsFunc(kind.units, func(u string) bool { return units.MustParse(u).Dim() == q.Dim() })
	}
	switch {
	case !known:
		return ""
	case p.Words != "":
		q, err := units.Parse(p.Words)
		if err != nil {
			q, err = units.ParseRKM(p.Words, strings.TrimPrefix(kind.units[0], "1"))
		}
		if err == nil && is(q) {
			return p.Reference + " has a value that is written as a text, “" + p.Words + "”: without the quotes, ratings and lists of parts are held against it"
		}
		return ""
	case is(p.Value):
		return ""
	}
	return p.Reference + " is " + units.Nominal(p.Value).String() + ", and " + Letters(p.Reference) + " stands for " + kind.parts + ": write " + kind.value + ", or the letters of what it is"
}
