package render

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"ohmwright/kernel/cell"
	"ohmwright/units"
)

var circuit = values{
	"Vin": "24V", "Vout": "5V", "Vref": "800mV", "Iout": "15mA", "Rtop": "10kΩ", "Rbot": "1.91kΩ", "Ra": "1kΩ", "Rb": "3kΩ",
	"Ta": "-20°C", "Tb": "25°C", "Pd": "285mW", "θJA": "62°C/W", "Vneg": "-5V", "gain": "-3", "ratio": "0.16", "n": "3",
	"A": "2A", "x": "2", "en": "35nV/√Hz", "Label": "no number here", "supply.Vbus": "24V", "rs[]": "4.7kΩ", "tiny": "2.5e-9",
}

// Where brackets belong is elementary algebra, and for the solidus ISO
// 80000-1 (combination of symbols for quantities, from memory): no factor and
// no second solidus behind one without brackets. The words for the
// preferred-number functions and abs are our own.
func TestFormula(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ src, plain, tex string }{
		{"Rtop*Vref/(5V-Vref)", "Rtop · Vref/(5 V − Vref)", `\frac{R_{\mathrm{top}} \cdot V_{\mathrm{ref}}}{5\ \mathrm{V} - V_{\mathrm{ref}}}`},
		{"Vref*(1+Rtop/Rbot)", "Vref · (1 + Rtop/Rbot)", `V_{\mathrm{ref}} \cdot \left(1 + \frac{R_{\mathrm{top}}}{R_{\mathrm{bot}}}\right)`},
		// associativity
		{"x-(Ra-Rb)", "x − (Ra − Rb)", `x - \left(R_{\mathrm{a}} - R_{\mathrm{b}}\right)`},
		{"x-Ra-Rb", "x − Ra − Rb", `x - R_{\mathrm{a}} - R_{\mathrm{b}}`},
		{"x+(Ra+Rb)", "x + (Ra + Rb)", `x + \left(R_{\mathrm{a}} + R_{\mathrm{b}}\right)`},
		{"x/(Ra*Rb)", "x/(Ra · Rb)", `\frac{x}{R_{\mathrm{a}} \cdot R_{\mathrm{b}}}`},
		{"x/Ra/Rb", "(x/Ra)/Rb", `\frac{x}{R_{\mathrm{a}} \cdot R_{\mathrm{b}}}`},
		{"x/(Ra/Rb)", "x/(Ra/Rb)", `\frac{x}{\frac{R_{\mathrm{a}}}{R_{\mathrm{b}}}}`},
		{"x/Ra*Rb", "(x/Ra) · Rb", `\frac{x}{R_{\mathrm{a}}} \cdot R_{\mathrm{b}}`},
		{"x*(Ra/Rb)", "x · (Ra/Rb)", `x \cdot \frac{R_{\mathrm{a}}}{R_{\mathrm{b}}}`},
		{"(Ra+Rb)*(Ra-Rb)", "(Ra + Rb) · (Ra − Rb)", `\left(R_{\mathrm{a}} + R_{\mathrm{b}}\right) \cdot \left(R_{\mathrm{a}} - R_{\mathrm{b}}\right)`},
		// signs
		{"-x+Ra", "−x + Ra", `-x + R_{\mathrm{a}}`},
		{"Ra- -x", "Ra − (−x)", `R_{\mathrm{a}} - \left(-x\right)`},
		{"Ra*-x", "Ra · (−x)", `R_{\mathrm{a}} \cdot \left(-x\right)`},
		{"Ra+-x*Rb", "Ra + (−x · Rb)", `R_{\mathrm{a}} + \left(-x \cdot R_{\mathrm{b}}\right)`},
		{"-(Ra+Rb)", "−(Ra + Rb)", `-\left(R_{\mathrm{a}} + R_{\mathrm{b}}\right)`},
		{"- -x", "−(−x)", `-\left(-x\right)`},
		{"-(Ra/Rb)", "−(Ra/Rb)", `-\frac{R_{\mathrm{a}}}{R_{\mathrm{b}}}`},
		{"Tb- -40°C", "Tb − (−40 °C)", `T_{\mathrm{b}} - \left(-40\ {}^{\circ}\mathrm{C}\right)`},
		// powers and roots
		{"Pow(x,2)", "x²", `{x}^{2}`},
		{"Pow(-x,2)", "(−x)²", `{\left(-x\right)}^{2}`},
		{"-Pow(x,2)", "−x²", `-{x}^{2}`},
		{"Pow(Ra/Rb,2)", "(Ra/Rb)²", `{\left(\frac{R_{\mathrm{a}}}{R_{\mathrm{b}}}\right)}^{2}`},
		{"Pow(Pow(x,2),3)", "(x²)³", `{\left({x}^{2}\right)}^{3}`},
		{"Pow(x,-2)", "x⁻²", `{x}^{-2}`},
		{"Pow(x,0.5)", "x^0.5", `{x}^{0.5}`},
		{"Pow(x,n+1)", "x^(n + 1)", `{x}^{n + 1}`},
		{"Pow(5V,2)", "(5 V)²", `{\left(5\ \mathrm{V}\right)}^{2}`},
		{"Sqrt(x)", "√x", `\sqrt{x}`},
		{"Sqrt(Ra*Rb)", "√(Ra · Rb)", `\sqrt{R_{\mathrm{a}} \cdot R_{\mathrm{b}}}`},
		{"Pow(Sqrt(x),3)", "(√x)³", `{\left(\sqrt{x}\right)}^{3}`},
		{"Ra/Sqrt(x)", "Ra/√x", `\frac{R_{\mathrm{a}}}{\sqrt{x}}`},
		// units in a line
		{"5V / A", "(5 V)/A", `\frac{5\ \mathrm{V}}{A}`},
		{"x*5V / A", "(x · 5 V)/A", `\frac{x \cdot 5\ \mathrm{V}}{A}`},
		{"5V/Ra", "5 V/Ra", `\frac{5\ \mathrm{V}}{R_{\mathrm{a}}}`},
		{"Tb/62°C/W", "Tb/(62 °C/W)", `\frac{T_{\mathrm{b}}}{62\ {}^{\circ}\mathrm{C}/\mathrm{W}}`},
		{"62°C/W/x", "(62 °C/W)/x", `\frac{62\ {}^{\circ}\mathrm{C}/\mathrm{W}}{x}`},
		{"x*62°C/W", "x · 62 °C/W", `x \cdot 62\ {}^{\circ}\mathrm{C}/\mathrm{W}`},
		{"1e-3*x", "1e-3 · x", `{1 \times 10^{-3}} \cdot x`},
		{"4.7kohm+10uF", "4.7 kΩ + 10 µF", `4.7\ \mathrm{k}\Omega + 10\ \text{µ}\mathrm{F}`},
		{"35nV/√Hz*x", "35 nV/√Hz · x", `35\ \mathrm{nV}/\sqrt{\mathrm{Hz}} \cdot x`},
		{"5%*x", "5 % · x", `5\ \% \cdot x`},
		// functions
		{"Parallel(Ra,Rb)", "Ra ∥ Rb", `R_{\mathrm{a}} \parallel R_{\mathrm{b}}`},
		{"Parallel(Ra,Rb+x)", "Ra ∥ (Rb + x)", `R_{\mathrm{a}} \parallel \left(R_{\mathrm{b}} + x\right)`},
		{"x+Parallel(Ra,Rb)", "x + (Ra ∥ Rb)", `x + \left(R_{\mathrm{a}} \parallel R_{\mathrm{b}}\right)`},
		{"Abs(x-n)", "|x − n|", `\left|x - n\right|`},
		{"Abs(Abs(x)-n)", "abs(|x| − n)", `\operatorname{abs}\left(\left|x\right| - n\right)`},
		{"Exp(-x/n)", "exp(−x/n)", `\exp\left(\frac{-x}{n}\right)`},
		{"Ln(x)*Log10(n)", "ln(x) · log10(n)", `\ln\left(x\right) \cdot \log_{10}\left(n\right)`},
		{"Min(x,n,2)", "min(x, n, 2)", `\min\left(x, n, 2\right)`},
		{`In(x*n,"mAh")`, "x · n", `x \cdot n`},
		{"float64(x)", "x", "x"},
		{"Typical(x)", "Typical(x)", `\operatorname{Typical}\left(x\right)`},
		{"divider.Loaded(Vin,Ra)", "divider.Loaded(Vin, Ra)", `\mathrm{divider}\text{.}\mathrm{Loaded}\left(V_{\mathrm{in}}, R_{\mathrm{a}}\right)`},
		{"rs.Sum(x)", "rs.Sum(x)", `\mathrm{rs}\text{.}\mathrm{Sum}\left(x\right)`},
		{"Nearest(E96,x*n)", "nearest E96 to x · n", `\text{nearest }\text{E96}\text{ to }x \cdot n`},
		{"2*Nearest(E96,x)", "2 · (nearest E96 to x)", `2 \cdot \left(\text{nearest }\text{E96}\text{ to }x\right)`},
		{"AtLeast(E24,x)", "smallest E24 of at least x", `\text{smallest }\text{E24}\text{ of at least }x`},
		{"AtMost(E24,x)", "largest E24 of at most x", `\text{largest }\text{E24}\text{ of at most }x`},
		// tolerance
		{"Rtop ± 1%", "Rtop ± 1 %", `R_{\mathrm{top}} \pm 1\ \%`},
		{"(Ra+Rb) ± 1%", "(Ra + Rb) ± 1 %", `\left(R_{\mathrm{a}} + R_{\mathrm{b}}\right) \pm 1\ \%`},
		{"x + (Ra ± 1%)", "x + (Ra ± 1 %)", `x + \left(R_{\mathrm{a}} \pm 1\ \%\right)`},
		{"Ra ± 1% ± 0.5%", "Ra ± 1 % ± 0.5 %", `R_{\mathrm{a}} \pm 1\ \% \pm 0.5\ \%`},
		// comparisons and logic
		{"Tb <= 125°C", "Tb ≤ 125 °C", `T_{\mathrm{b}} \le 125\ {}^{\circ}\mathrm{C}`},
		{"x != -n", "x ≠ −n", `x \ne -n`},
		{"x >= 1 && !(n == 2) || x < 3", "x ≥ 1 and not (n = 2) or x < 3",
			`x \ge 1 \;\text{and}\; \text{not }\left(n = 2\right) \;\text{or}\; x < 3`},
		{"Within(x, 1, n+1)", "1 ≤ x ≤ n + 1", `1 \le x \le n + 1`},
		{"x % 3", "x mod 3", `x \bmod 3`},
		{"(x ^ 3) * 2", "(x xor 3) · 2", `\left(x \mathbin{\text{xor}} 3\right) \cdot 2`},
		// parts of things
		{"supply.Vbus*x", "supply.Vbus · x", `\mathrm{supply}\text{.}V_{\mathrm{bus}} \cdot x`},
		{"rs[2]+x", "rs[2] + x", `\mathrm{rs}\left[2\right] + x`},
		{"Inputs{Vin: 5V}", "Inputs{Vin: 5 V}", `\texttt{Inputs}\left\{V_{\mathrm{in}}\text{: }5\ \mathrm{V}\right\}`},
		{`pick("a_b$")`, `pick("a_b$")`, `\operatorname{pick}\left(\texttt{"a}\_\texttt{b}\$\texttt{"}\right)`},
		{"func(x Quantity) Quantity { return x*2 }", "func(x Quantity) Quantity { return x_1 * 2 }",
			`\texttt{func(x Quantity) Quantity }\{\texttt{ return x}\_\texttt{1 * 2 }\}`},
	} {
		e := tree(t, c.src, circuit)
		if got := Formula(e, Plain); got != c.plain {
			t.Errorf("%s\n text %s\n want %s", c.src, got, c.plain)
		}
		if got := Formula(e, TeX); got != c.tex {
			t.Errorf("%s\n TeX  %s\n want %s", c.src, got, c.tex)
		}
		if got := Formula(e, MarkdownMath); got != "$"+c.tex+"$" {
			t.Errorf("%s\n Markdown %s", c.src, got)
		}
		checkXML(t, Formula(e, MathML))
	}
}

func TestNumbers(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ src, plain string }{
		{"Rtop*Vref/(5V-Vref)", "10 kΩ · 800 mV/(5 V − 800 mV)"},
		{"Ta+Pd*θJA", "−20 °C + 285 mW · 62 °C/W"},
		{"Tb-Ta", "25 °C − (−20 °C)"},
		{"Pd/θJA", "285 mW/(62 °C/W)"},
		{"-Vneg", "−(−5 V)"},
		{"x*Vneg", "2 · (−5 V)"},
		{"Pow(Vneg,2)/Ra", "(−5 V)²/1 kΩ"},
		{"Pow(Vout,2)/Ra", "(5 V)²/1 kΩ"},
		{"Pow(x,n)", "2³"},
		{"gain*x", "−3 · 2"},
		{"Vout/A", "5 V/2 A"},
		{"Label", "Label"},
		{"supply.Vbus*rs[3]", "24 V · 4.7 kΩ"},
		{"en*x", "35 nV/√Hz · 2"},
		{"Parallel(Rtop,Rbot)", "10 kΩ ∥ 1.91 kΩ"},
		{"Sqrt(Ra*Rb)", "√(1 kΩ · 3 kΩ)"},
		{"Sqrt(Ra)", "√(1 kΩ)"},
		{"Tb <= 125°C", "25 °C ≤ 125 °C"},
		{"(High(Vin)-Vout)*x", "(32 V − 5 V) · 2"},
		{"Low(Vin)/Nominal(Vin)", "18 V/24 V"},
		{"High(Vout)", "5 V"},
		{"Pow(tiny,2)", "(2.5e-9)²"},
	} {
		e := tree(t, c.src, circuit)
		giveLimits(e, "Vin", units.Range(q("18V"), q("24V"), q("32V")))
		if got := Numbers(e, Plain, 4); got != c.plain {
			t.Errorf("%s\n text %s\n want %s", c.src, got, c.plain)
		}
		checkXML(t, Numbers(tree(t, c.src, circuit), MathML, 4))
	}
	third := tree(t, "x/n", values{"x": "1V", "n": "0.333333333333V"})
	if got := Numbers(third, Plain, 4); got != "1 V/333.3 mV" {
		t.Errorf("four digits: %s", got)
	}
	if got := Numbers(third, Plain, 0); got != "1 V/333.333333333 mV" {
		t.Errorf("all digits: %s", got)
	}
}

// giveLimits sets the value of a name where it stands in e.
func giveLimits(e *cell.Expr, name string, x units.Quantity) {
	if e.Kind == cell.ExprName && e.Text == name {
		e.Value = quantityView(x)
	}
	for _, a := range e.Args {
		giveLimits(a, name, x)
	}
}

// checkXML: MathML has to be well formed, and mfrac and msup have two children.
func checkXML(t testing.TB, s string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(s))
	var names []string
	var children []int
	for {
		tok, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("%v: %s", err, s)
		}
		switch tok := tok.(type) {
		case xml.StartElement:
			if len(children) > 0 {
				children[len(children)-1]++
			}
			names, children = append(names, tok.Name.Local), append(children, 0)
		case xml.EndElement:
			n := children[len(children)-1]
			switch tok.Name.Local {
			case "mfrac", "msup", "msub":
				if n != 2 {
					t.Errorf("%s has %d children: %s", tok.Name.Local, n, s)
				}
			}
			names, children = names[:len(names)-1], children[:len(children)-1]
		}
	}
}
