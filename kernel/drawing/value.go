package drawing

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"ohmwright/units"
)

// Value is what is written beside a reference.
type Value struct {
	NotFitted bool
	Known     bool // there is a value
	Quantity  units.Quantity
	Tolerance float64          // a share; 0 where none is written
	Ratings   []units.Quantity // voltages, currents, powers
}

// notFitted are the marks of a part that is drawn and not mounted: common practice.
var notFitted = []string{"dnp", "dni", "dnf", "dnm", "nm", "n.m.", "n.m", "n.b.", "n.p.", "n/m", "unfitted"}

var (
	fraction    = regexp.MustCompile(`(^|[\s,;/])1/([0-9]{1,2})\s*[wW]`)
	mountWords  = regexp.MustCompile(`(?i)\b(not fitted|not mounted|not populated|do not (fit|place|populate|mount))\b`)
	commaNumber = regexp.MustCompile(`([0-9]),([0-9])`)
	bare        = regexp.MustCompile(`^[0-9]*\.?[0-9]+$`)
	sizes       = []string{"01005", "0201", "0402", "0603", "0805", "1206", "1210", "1806", "1808", "1812", "2010", "2220", "2512", "2917"}
	percents    = regexp.MustCompile(`^±?([0-9]*\.?[0-9]+)%$`)
	written     = regexp.MustCompile(`^([0-9]*\.?[0-9]+)(meg|Meg|MEG|[pnuµμmkKMGR])?(ohms?|Ohms?|OHMS?|Ω|Ω|R|F|H|Hz)?$`)
	rating      = regexp.MustCompile(`^([0-9]*\.?[0-9]+)([munµμkM]?)([VAW])(?:DC|AC|dc|ac)?$`)
	ratingPoint = regexp.MustCompile(`^([0-9]+)([VAW])([0-9]+)$`)
	unitAlone   = regexp.MustCompile(`^(?:[pnuµμmkKMG]?(?:ohms?|Ohms?|Ω|Ω|F|H|Hz|V|A|W|R)|[pnuµμmkKMG]|%)$`)
	plusMinus   = regexp.MustCompile(`\s*(?:\+/?-|±)\s*`)
)

// ReadValue reads what people write beside a part whose value is in unit: Ω, F,
// H or another in SI without prefix. Of a tolerance and of ratings it keeps what
// it knows, and passes over sizes, materials and the like. A mere number is a
// value in ohms only. Source: common practice and IEC 60062.
func ReadValue(text, unit string) (Value, error) {
	var v Value
	s := strings.TrimSpace(text)
	if mountWords.MatchString(s) {
		v.NotFitted = true
		s = mountWords.ReplaceAllString(s, " ")
	}
	for _, m := range fraction.FindAllStringSubmatch(s, -1) {
		if d, _ := strconv.Atoi(m[2]); d > 0 {
			v.Ratings = append(v.Ratings, units.MustParse("1W").Div(units.Number(float64(d))))
		}
	}
	s = fraction.ReplaceAllString(s, "$1")
	s = plusMinus.ReplaceAllString(s, " ±")
	for commaNumber.MatchString(s) { // 1,2,3 matches twice
		s = commaNumber.ReplaceAllString(s, "$1.$2")
	}
	tokens := strings.FieldsFunc(s, func(r rune) bool { return strings.ContainsRune(" \t\r\n,;/_()|", r) })
	if slices.Contains(notFitted, strings.ToLower(strings.TrimSpace(text))) {
		return Value{NotFitted: true}, nil
	}
	first := ""
	for i := 0; i < len(tokens); i++ {
		t := tokens[i]
		if bare.MatchString(strings.TrimPrefix(t, "±")) && i+1 < len(tokens) && unitAlone.MatchString(tokens[i+1]) {
			i++
			t += tokens[i]
		}
		switch {
		case t == "nm" && i > 0 && bare.MatchString(tokens[i-1]): // a wavelength
		case slices.Contains(notFitted, strings.ToLower(t)):
			v.NotFitted = true
			continue
		case v.Known && slices.Contains(sizes, t):
			continue
		}
		if m := percents.FindStringSubmatch(t); m != nil {
			if p, err := strconv.ParseFloat(m[1], 64); err == nil && v.Tolerance == 0 {
				v.Tolerance = p / 100
			}
			continue
		}
		if q, ok := ratingOf(t, unit); ok {
			v.Ratings = append(v.Ratings, q)
			continue
		}
		q, tolerance, ok := quantity(t, unit)
		switch {
		case !ok:
		case !v.Known:
			v.Known, v.Quantity, first = true, q, t
			if tolerance > 0 && v.Tolerance == 0 {
				v.Tolerance = tolerance
			}
		case !bare.MatchString(t) && !equal(v.Quantity.SI(), q.SI()):
			return v, fmt.Errorf("%q has two values, %s and %s", cut(text), first, t)
		}
	}
	switch {
	case v.Known || v.NotFitted:
		return v, nil
	case strings.TrimSpace(text) == "":
		return v, fmt.Errorf("there is no value")
	case len(tokens) > 0 && bare.MatchString(tokens[0]):
		return v, fmt.Errorf("%q is a number without a unit", cut(text))
	}
	return v, fmt.Errorf("%q is no value in %s", cut(text), unit)
}

// quantity reads one value: 4.7k, 10uF, 4k7, 2R2, 100nK.
func quantity(t, unit string) (q units.Quantity, tolerance float64, ok bool) {
	if m := written.FindStringSubmatch(t); m != nil {
		prefix, of := strings.ToLower(m[2]), m[3]
		switch {
		case prefix == "meg":
			prefix = "M"
		case m[2] == "K":
			prefix = "k"
		case m[2] == "μ" || m[2] == "u":
			prefix = "µ"
		default:
			prefix = m[2]
		}
		if prefix == "R" {
			if unit != "Ω" || of != "" {
				return q, 0, false
			}
			prefix = ""
			of = "R"
		}
		switch {
		case of == "":
			of = unit
			if prefix == "" && unit != "Ω" {
				return q, 0, false
			}
		case strings.HasPrefix(strings.ToLower(of), "ohm"), of == "R", of == "Ω":
			of = "Ω"
		}
		switch {
		case of == unit:
			q, err := units.Parse(m[1] + prefix + unit)
			return q, 0, err == nil
		case prefix == "" || strings.Contains("pnµm", prefix):
			return q, 0, false // 10 µF is no resistor; of 10kF the F may be a tolerance
		}
	}
	if unit != "Ω" && unit != "F" && unit != "H" {
		q, err := units.Parse(t)
		return q, 0, err == nil && q.SIUnit() == unit
	}
	q, err := units.ParseRKM(t, unit)
	if err != nil {
		return q, 0, false
	}
	nominal := units.Nominal(q)
	if low, high, spread := q.Limits(); spread && nominal.SI() > 0 {
		tolerance = (high.SI() - low.SI()) / 2 / nominal.SI()
	}
	return nominal, tolerance, true
}

// ratingOf reads a voltage, current or power beside a value of another unit.
func ratingOf(t, unit string) (units.Quantity, bool) {
	if m := ratingPoint.FindStringSubmatch(t); m != nil && m[2] != unit {
		q, err := units.Parse(m[1] + "." + m[3] + m[2])
		return q, err == nil
	}
	m := rating.FindStringSubmatch(t)
	if m == nil || m[3] == unit {
		return units.Quantity{}, false
	}
	q, err := units.Parse(m[1] + m[2] + m[3])
	return q, err == nil
}

// equal is what two people write alike: the last digits of a conversion do not count.
func equal(a, b float64) bool {
	d := a - b
	if d < 0 {
		d = -d
	}
	return d <= 1e-6*max(a, -a, b, -b)
}
