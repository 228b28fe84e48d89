package render

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"ohmwright/lib/plot"
	"ohmwright/units"
)

func numbersOf(unit string, xs ...float64) []units.Quantity {
	var out []units.Quantity
	for _, x := range xs {
		out = append(out, q("1 "+unit).Mul(units.Number(x)))
	}
	return out
}

// sampleFigures are invented, but for the impedances, which follow from 1/(2πfC)
// and 2πfL.
func sampleFigures() map[string]plot.Figure {
	var amperes, kelvins, etas []float64
	for i := range 61 {
		x := 0.15 + (1.5-0.15)*float64(i)/60
		amperes, kelvins, etas = append(amperes, x), append(kelvins, 8+22*x*x), append(etas, 0.93-0.02/x-0.03*x)
	}
	iout := numbersOf("A", amperes...)
	var tj, eta []units.Quantity
	for i := range iout {
		rise := kelvins[i]
		at := func(air float64) units.Quantity { return q("0 °C").Add(q("1 K").Mul(units.Number(air + rise))) }
		tj = append(tj, units.Range(at(-20), at(25), at(60)))
		eta = append(eta, units.Band(units.Number(etas[i]-0.02), units.Number(etas[i]), units.Number(etas[i]+0.01)).In("%"))
	}
	temperature := plot.Figure{XName: "Iout", YName: "Tj", Series: []plot.Series{{Name: "Tj", X: iout, Y: tj}},
		Marks: []plot.Mark{{Name: "Tj ≤ 125 °C", Value: q("125 °C")}, {Name: "Tj ≥ −40 °C", Value: q("-40 °C")}}}
	efficiency := plot.Figure{XName: "Iout", YName: "η", LogX: true, Series: []plot.Series{{Name: "η", X: iout, Y: eta}},
		Marks: []plot.Mark{{Name: "η ≥ 75 %", Value: q("75 %")}, {Name: "usual load", Value: q("0.6 A"), AlongX: true}}}
	var hertz, cs, ls []float64
	for i := range 61 {
		f := math.Pow(10, 1+5*float64(i)/60)
		hertz, cs, ls = append(hertz, f), append(cs, 1/(2*math.Pi*f*1e-6)), append(ls, 2*math.Pi*f*1e-3)
	}
	impedance := plot.Figure{Title: "Capacitor and choke of the filter", XName: "frequency", LogX: true, LogY: true, Series: []plot.Series{
		{Name: "1 µF", X: numbersOf("Hz", hertz...), Y: numbersOf("Ω", cs...)},
		{Name: "1 mH", X: numbersOf("Hz", hertz...), Y: numbersOf("Ω", ls...)},
	}, Marks: []plot.Mark{{Name: "switching frequency", Value: q("400 kHz"), AlongX: true}}}
	many := plot.Figure{XName: "time", YName: "voltage"}
	for k, name := range []string{"rail", "reference", "enable", "feedback pin", "supply of the gate driver", "monitor"} {
		s := plot.Series{Name: name}
		for i := range 41 {
			t := float64(i) / 4
			s.X = append(s.X, numbersOf("ms", t)...)
			v := (5 - 0.7*float64(k)) * (1 - math.Exp(-t/(1+float64(k))))
			s.Y = append(s.Y, numbersOf("V", v)...)
			if k < 2 {
				s.Y[i] = units.Band(q("1V").Mul(units.Number(v*0.93)), q("1V").Mul(units.Number(v)), q("1V").Mul(units.Number(v*1.05)))
			}
		}
		many.Series = append(many.Series, s)
	}
	measured := plot.Figure{XName: "load", YName: "loss", Series: []plot.Series{
		{Name: "computed", X: numbersOf("mA", 0, 5, 10, 15, 20, 25), Y: numbersOf("mW", 12, 95, 180, 270, 355, 440)},
		{Name: "measured", X: numbersOf("mA", 2, 15, 25), Y: numbersOf("mW", 45, 280, 452)},
	}, Marks: []plot.Mark{{Name: "allowed", Value: q("5 W")}}}
	return map[string]plot.Figure{"temperature": temperature, "efficiency": efficiency, "impedance": impedance, "many": many, "measured": measured}
}

func TestLook(t *testing.T) {
	for name, f := range sampleFigures() {
		svg, png, err := FigurePicture(f)
		if err != nil {
			t.Fatal(name, err)
		}
		dir := os.Getenv("LOOK")
		if dir != "" {
			os.WriteFile(filepath.Join(dir, name+".png"), png, 0o644)
			os.WriteFile(filepath.Join(dir, name+".svg"), svg, 0o644)
		}
		t.Log(figureAlt(f))
	}
}
