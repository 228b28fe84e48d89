package units

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// About says what a unit is.
type About struct {
	Symbol     string   // "kΩ"
	Spellings  []string // of a single unit without its prefix: "ohm"
	Measures   string   // "resistance"
	Definition string   // of a single unit: "1 Ω = 1 V/A"
	Prefix     string   // "k = 10³"
	SI         string   // "1 kΩ = 1000 Ω"; "" for a scale with a zero of its own, and where it would say nothing
	Source     string   // of the definition
	Parts      []About  // of a compound unit, its factors
}

// AboutLiteral says of the literal at the start of src what its value is in
// SI and what its unit is; ok is false where no literal with a unit stands.
func AboutLiteral(src string) (value string, unit About, ok bool) {
	q, n, err := ScanLiteral(src)
	if err != nil || n == 0 {
		return "", About{}, false
	}
	_, sign := scanSign(src)
	_, w, _ := scanDecimal(src[sign:])
	fs, err := std.factors(src[sign+w : n])
	if err != nil {
		return "", About{}, false
	}
	u, err := compose(fs)
	if err != nil {
		return "", About{}, false
	}
	unit = About{Symbol: u.Symbol, Measures: Quantity{d: u.dim, u: u}.measures()}
	single := len(fs) == 1 && fs[0].halves == 2
	for _, f := range fs {
		part := std.about(f, single)
		if single {
			part.Symbol, part.Measures = unit.Symbol, unit.Measures
			unit = part
		} else {
			unit.Parts = append(unit.Parts, part)
		}
	}
	unit.SI = u.inSI()
	return inSI(q), unit, true
}

// about says what one factor of a unit is. In a compound unit °C is a
// difference.
func (t *table) about(f factor, single bool) About {
	e := t.units[f.unit.Symbol]
	a := About{Symbol: f.symbol, Spellings: e.also, Source: cited(e.source)}
	u := e.unit
	a.Measures = Quantity{d: u.dim, u: u}.measures()
	if !single && u.dim.Kind() == PointScale {
		a.Measures = Quantity{d: dimKelvin}.measures()
	}
	a.Definition = e.define()
	if f.prefix != nil {
		a.Prefix = f.prefix.symbol + " = " + f.prefix.size()
		a.SI = (&Unit{Symbol: f.symbol, dim: u.dim, tag: u.tag, scale: new(big.Rat).Mul(u.scale, f.prefix.factor), si: u.si}).inSI()
	} else {
		a.SI = u.inSI()
	}
	return a
}

// cited writes out how the table shortens its sources.
func cited(source string) string {
	if rest, ok := strings.CutPrefix(source, "SI "); ok && rest[0] >= '0' && rest[0] <= '9' {
		return "SI Brochure, 9th edition (2019), table " + rest
	}
	return strings.Replace(source, "SP 811", "NIST Special Publication 811 (2008)", 1)
}

// define words the definition column of the table.
func (e *entry) define() string {
	u := e.unit
	words := strings.Fields(e.definition)
	one := "1 " + u.Symbol
	switch words[0] {
	case "base":
		if len(words) == 3 {
			return one + " = " + words[1] + " k" + u.Symbol + "; the SI base unit is k" + u.Symbol
		}
		return one + " is the SI base unit of " + Quantity{d: u.dim}.measures()
	case "point":
		zero, _ := u.offset.Float64()
		return "a point on the temperature scale: 0 " + u.Symbol + " = " + short(zero) + " K, and a step of 1 " + u.Symbol + " is " + words[1] + " K"
	case "gain":
		return "a ratio: ten times the logarithm to base 10 of a ratio of powers, twenty times that of voltages"
	case "level":
		zero := levelValue(Quantity{v: levelOffset(u), d: u.dim | computedMark, u: u})
		return "a level over a reference: 0 " + u.Symbol + " = " + zero.String()
	}
	return one + " = " + e.definition
}

func levelOffset(u *Unit) float64 {
	if u.offset == nil {
		return 0
	}
	f, _ := u.offset.Float64()
	return f
}

// levelValue is the power or voltage of a level.
func levelValue(q Quantity) Quantity {
	if q.d&exponents == dimWatt {
		return Power(q)
	}
	return Voltage(q)
}

// size writes what a prefix multiplies by: 10³, 2¹⁰.
func (p *prefix) size() string {
	if p.binary {
		return "2" + superscript(p.factor.Num().BitLen()-1)
	}
	if p.exp < 0 {
		return "10⁻" + superscript(-p.exp)
	}
	return "10" + superscript(p.exp)
}

// inSI says how much of the coherent SI unit u is, "" where that is u itself
// or where u has a zero of its own.
func (u *Unit) inSI() string {
	if u.dim.Kind() != PlainScale || u.offset != nil {
		return ""
	}
	f, _ := u.scale.Float64()
	si := Quantity{d: u.dim | computedMark, u: u}.SIUnit()
	if u.Symbol == si {
		return ""
	}
	if si == "1" {
		return "1 " + u.Symbol + " = " + short(f)
	}
	return "1 " + u.Symbol + " = " + short(f) + " " + si
}

// inSI writes q in its coherent SI unit, a level as the power or voltage that
// it is, a gain as the ratio.
func inSI(q Quantity) string {
	switch q.d.Kind() {
	case LevelScale:
		v := levelValue(q)
		return short(v.SI()) + " " + v.SIUnit()
	case GainScale:
		if q.Dim()&exponents != 0 {
			return short(q.SI()) + " " + q.SIUnit()
		}
		return "a ratio of powers of " + short(math.Pow(10, q.v/10)) + ", of voltages of " + short(math.Pow(10, q.v/20))
	}
	if si := q.SIUnit(); si != "1" {
		return short(q.SI()) + " " + si
	}
	return short(q.SI())
}

// short writes a number with up to ten digits, 1e-5 rather than 1e-05.
func short(f float64) string {
	s := strconv.FormatFloat(f, 'g', 10, 64)
	if f == math.Trunc(f) && math.Abs(f) < 1e10 {
		s = strconv.FormatFloat(f, 'f', -1, 64)
	}
	m, e, ok := strings.Cut(s, "e")
	if ok {
		e = strings.TrimPrefix(e, "+")
		sign := ""
		if rest, neg := strings.CutPrefix(e, "-"); neg {
			sign, e = "-", rest
		}
		s = m + "e" + sign + strings.TrimLeft(e, "0")
	}
	return strings.Replace(s, "-", "−", 1)
}
