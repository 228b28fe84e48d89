package render

import (
	"encoding/xml"
	"strings"

	"ohmwright/units"
)

type element struct {
	XMLName  xml.Name
	Children []element `xml:",any"`
	Text     string    `xml:",chardata"`
}

func (r *reader) mathML(s string) units.Quantity {
	var root element
	if err := xml.Unmarshal([]byte(s), &root); err != nil {
		r.fail("%s: %v", s, err)
	}
	return r.mathRow(root.Children)
}

func (r *reader) mathRow(children []element) units.Quantity {
	var row []item
	for _, c := range children {
		row = r.mathItem(row, c)
	}
	return r.compute(row, false)
}

func (r *reader) mathItem(row []item, e element) []item {
	arg := func(i int) units.Quantity { return r.mathRow(e.Children[i : i+1]) }
	switch e.XMLName.Local {
	case "mo":
		op := map[string]string{"+": "+", "−": "-", "·": "*"}[e.Text]
		if op == "" {
			r.fail("%s: operator %q", r.src, e.Text)
		}
		return append(row, item{op: op})
	case "mfrac":
		return append(row, item{q: arg(0).Div(arg(1))})
	case "msup":
		return append(row, item{q: units.Pow(arg(0), arg(1).Float())})
	case "msqrt":
		return append(row, item{q: units.Sqrt(r.mathRow(e.Children))})
	case "mn":
		return r.literal(row, e.Text, "")
	case "mi", "msub":
		return append(row, item{q: r.name(mathNames[e.flat()])})
	case "mrow":
		return r.mathGroup(row, e)
	}
	r.fail("%s: element %s", r.src, e.XMLName.Local)
	return row
}

// mathGroup reads an mrow: a value with its unit, a bracket, or a row that
// only groups what its operators join anyway.
func (r *reader) mathGroup(row []item, e element) []item {
	cs := e.Children
	if n := len(cs); n == 3 && cs[1].XMLName.Local == "mspace" {
		return r.literal(row, mathNumberText(cs[0]), cs[2].Text)
	}
	if len(cs) == 3 && cs[0].Text == "(" && cs[2].Text == ")" {
		return append(row, item{q: r.mathRow(cs[1:2])})
	}
	if name := mathNames[e.flat()]; name != "" {
		return append(row, item{q: r.name(name)})
	}
	if n := mathNumberText(e); n != "" {
		return r.literal(row, n, "")
	}
	for _, c := range cs {
		row = r.mathItem(row, c)
	}
	return row
}

// mathNumberText reads mn, and m × 10^e in an mrow.
func mathNumberText(e element) string {
	if e.XMLName.Local == "mn" {
		return e.Text
	}
	if m, exponent, ok := strings.Cut(e.flat(), "×10"); ok && e.XMLName.Local == "mrow" && len(e.Children) == 3 && e.Children[1].Text == "×" {
		return m + "e" + strings.Replace(exponent, "−", "-", 1)
	}
	return ""
}

func (e element) flat() string {
	s := e.Text
	for _, c := range e.Children {
		s += c.flat()
	}
	return s
}

var mathNames = map[string]string{
	"Vin": "Vin", "Vtop": "V_top", "Vneg": "Vneg", "Iout": "Iout", "A": "A", "Rtop": "Rtop", "R1": "R1", "θ": "theta", "x": "x",
	"ratio": "ratio", "gain": "gain", "margin": "margin", "Pd": "Pd", "Ta": "Ta", "Tj": "Tj", "ΔT": "ΔT", "θJA": "θJA",
}
