package preferred

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"ohmwright/units"
)

// colour is what a colour means at each place; "" is nothing.
type colour struct {
	name      string
	digit     string
	power     string // of the multiplier
	tolerance string
	tempco    string
}

// colours is the colour code of resistors.
//
// Source: IEC 60062, colour code (second-hand copies for digits, multipliers
// and tolerances, from memory for temperature coefficients). Grey has no
// tolerance here: it is 0.05 % in older editions and 0.01 % in that of 2016.
var colours = []colour{
	{"pink", "", "-3", "", ""},
	{"silver", "", "-2", "10 %", ""},
	{"gold", "", "-1", "5 %", ""},
	{"black", "0", "0", "", "250 ppm/K"},
	{"brown", "1", "1", "1 %", "100 ppm/K"},
	{"red", "2", "2", "2 %", "50 ppm/K"},
	{"orange", "3", "3", "0.05 %", "15 ppm/K"},
	{"yellow", "4", "4", "0.02 %", "25 ppm/K"},
	{"green", "5", "5", "0.5 %", "20 ppm/K"},
	{"blue", "6", "6", "0.25 %", "10 ppm/K"},
	{"violet", "7", "7", "0.1 %", "5 ppm/K"},
	{"grey", "8", "8", "", "1 ppm/K"},
	{"white", "9", "9", "", ""},
}

// noBand is the tolerance of a resistor with three bands.
const noBand = "20 %"

// FromBands reads the colour bands of a resistor, from the end where they
// start.
//
//	FromBands("yellow", "violet", "red", "gold")             // 4.7 kΩ, 5 %
//	FromBands("brown", "black", "black", "red", "brown")     // 10 kΩ, 1 %
//
// Arguments: names, three to six colours: two figures, multiplier (tolerance
// 20 %); the same and tolerance; three figures, multiplier, tolerance; the
// same and temperature coefficient. A single black band is a link, 0 Ω.
// Result: value in Ω, tolerance, temperature coefficient, the latter two
// unset where not marked. It is an error where a colour means nothing at its
// place. A grey tolerance band is refused: editions of the standard differ.
//
// Source: IEC 60062, colour code.
//
// Caution: a fifth band on a part with two figures was used for reliability
// or temperature coefficient; such parts read wrongly as three figures.
func FromBands(names ...string) (Marking, error) {
	bands := make([]colour, len(names))
	for i, name := range names {
		c, err := colourNamed(name, i+1)
		if err != nil {
			return Marking{}, err
		}
		bands[i] = c
	}
	if len(bands) == 1 && bands[0].name == "black" {
		return Marking{Value: units.MustParse("0 Ω")}, nil
	}
	if len(bands) < 3 || len(bands) > 6 {
		return Marking{}, fmt.Errorf("a resistor with %d bands: it has three to six, or one black band: write a colour for each band", len(bands))
	}
	count := figureBands(len(bands))
	var digits string
	for i, c := range bands[:count] {
		if c.digit == "" {
			return Marking{}, bandError(c, i+1, "figure", func(c colour) string { return c.digit })
		}
		digits += c.digit
	}
	if strings.Trim(digits, "0") == "" {
		return Marking{}, fmt.Errorf("a resistor whose figures are all black: that is %s: check which end the bands start from", digits)
	}
	multiplier := bands[count]
	power, err := strconv.Atoi(multiplier.power) // every colour is a multiplier
	if err != nil {
		return Marking{}, err
	}
	m := Marking{Value: units.MustParse(decimal(digits, power) + " Ω"), Tolerance: units.MustParse(noBand)}
	if len(bands) > count+1 {
		c := bands[count+1]
		if c.tolerance == "" {
			return Marking{}, bandError(c, count+2, "tolerance", func(c colour) string { return c.tolerance })
		}
		m.Tolerance = units.MustParse(c.tolerance)
	}
	if len(bands) == 6 {
		c := bands[5]
		if c.tempco == "" {
			return Marking{}, bandError(c, 6, "temperature coefficient", func(c colour) string { return c.tempco })
		}
		m.TempCo = units.MustParse(c.tempco)
	}
	return m, nil
}

// Bands writes a resistor's marking as colour bands.
//
//	Bands(Marking{Value: 4.7kΩ, Tolerance: 5%}, 4)   // yellow violet red gold
//
// Arguments: m, value above zero, tolerance (for four bands and more) and
// temperature coefficient (for six); bands, 3 to 6. Three bands have no
// tolerance band: the tolerance must be 20 % or unset. Result: the colours
// from the first band on. It is an error where the value has more figures
// than the bands (two for three and four bands, three for five and six) or
// where there is no colour for a size, tolerance or coefficient.
//
// Source: IEC 60062, colour code.
func Bands(m Marking, bands int) ([]string, error) {
	if bands < 3 || bands > 6 {
		return nil, fmt.Errorf("marking with %d bands: a resistor has three to six: give one of these", bands)
	}
	p, err := partOf("cannot write colour bands for", m.Value)
	if err != nil {
		return nil, err
	}
	if p.unit != "Ω" {
		return nil, fmt.Errorf("marking of %v: colour bands are for resistors: give a value in Ω", m.Value)
	}
	count := figureBands(bands)
	digits, power := figures(m.Value)
	if len(digits) > count {
		return nil, tooManyFigures(fmt.Sprintf("a code of %d bands", bands), m.Value, count)
	}
	digits += strings.Repeat("0", count-len(digits))
	var names []string
	for _, d := range digits {
		names = append(names, colourWhere(func(c colour) bool { return c.digit == string(d) }))
	}
	multiplier := strconv.Itoa(power - (count - 1))
	name := colourWhere(func(c colour) bool { return c.power == multiplier })
	if name == "" {
		return nil, fmt.Errorf("marking of %v: no multiplier colour reaches that size with %d figures: check its prefix", m.Value, count)
	}
	names = append(names, name)
	if bands == 3 {
		if m.Tolerance != none && !sameSize(m.Tolerance, noBand) {
			return nil, fmt.Errorf("marking of %v: three bands mean a tolerance of 20 %%, this one is %v: ask for four bands or more", m.Value, m.Tolerance)
		}
		return names, nil
	}
	name = colourWhere(func(c colour) bool { return sameSize(m.Tolerance, c.tolerance) })
	if name == "" {
		return nil, bandsMissing(m, "tolerance", m.Tolerance, func(c colour) string { return c.tolerance })
	}
	names = append(names, name)
	if bands < 6 {
		return names, nil
	}
	name = colourWhere(func(c colour) bool { return sameSize(m.TempCo, c.tempco) })
	if name == "" {
		return nil, bandsMissing(m, "temperature coefficient", m.TempCo, func(c colour) string { return c.tempco })
	}
	return append(names, name), nil
}

// figureBands is the number of figures on a resistor with so many bands.
func figureBands(bands int) int {
	if bands <= 4 {
		return 2
	}
	return 3
}

// sameSize reports whether x is the value written in text, but for rounding.
func sameSize(x units.Quantity, text string) bool {
	if text == "" {
		return false
	}
	want := units.MustParse(text)
	if x.Dim() != want.Dim() {
		return false
	}
	d := x.SI()/want.SI() - 1
	return -rounding < d && d < rounding
}

func colourNamed(name string, band int) (colour, error) {
	wanted := strings.ToLower(strings.TrimSpace(name))
	if wanted == "gray" {
		wanted = "grey"
	}
	i := slices.IndexFunc(colours, func(c colour) bool { return c.name == wanted })
	if i < 0 {
		return colour{}, fmt.Errorf("band %d is %q, which is no colour of the code: write one of %s", band, name, names(func(colour) string { return "all" }))
	}
	return colours[i], nil
}

func colourWhere(is func(colour) bool) string {
	if i := slices.IndexFunc(colours, is); i >= 0 {
		return colours[i].name
	}
	return ""
}

// names lists the colours that have a meaning.
func names(meaning func(colour) string) string {
	var list []string
	for _, c := range colours {
		if meaning(c) != "" {
			list = append(list, c.name)
		}
	}
	return strings.Join(list, " ")
}

func bandError(c colour, band int, place string, meaning func(colour) string) error {
	if place == "tolerance" && c.name == "grey" {
		return fmt.Errorf("band %d is grey as a tolerance: older editions of IEC 60062 mean 0.05 %%, that of 2016 means 0.01 %%: take the tolerance from the data sheet", band)
	}
	return fmt.Errorf("band %d is %s, which is no %s: write one of %s", band, c.name, place, names(meaning))
}

func bandsMissing(m Marking, what string, x units.Quantity, meaning func(colour) string) error {
	var list []string
	for _, c := range colours {
		if meaning(c) != "" {
			list = append(list, meaning(c))
		}
	}
	if x == none {
		return fmt.Errorf("marking of %v: its %s is not given: give one of %s", m.Value, what, strings.Join(list, ", "))
	}
	return fmt.Errorf("marking of %v: there is no colour for a %s of %v: give one of %s", m.Value, what, x, strings.Join(list, ", "))
}
