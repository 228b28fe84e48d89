package jupyter

import (
	"fmt"
	"regexp"
	"strings"
	"testing"
)

// What is shown is held against the note itself and the documentation of lib;
// the values are those of a divider by hand: 0.8 V · (1 + 10/1.91) = 4.988 V.
func TestEngineInspects(t *testing.T) {
	t.Parallel()
	p := startEngine(t)
	p.run("// What the bench supply gives.\nVin := Range(18V, 24V, 32V) // supply [spec 4.2]\nRtop := 10kΩ ± 1% // upper [assumed]")
	p.run("Rbot := Nearest(E96, Rtop*800mV/(5V-800mV)) ± 1% // lower\nVout := 800mV * (1 + Rtop/Rbot) // output")
	p.run("// twice gives the double.\nfunc twice(v Quantity) Quantity { return 2 * v }\n\nPd := (Vin - Vout) * 15mA\nRequire(Vout < 6V, \"ok\")")
	p.run("d := divider.Plain(12V, 10kΩ, 3.3kΩ)\ncost := \"$5 and $6\" // in $")
	for _, c := range []struct {
		code   string
		detail int
		plain  []string
		html   []string
		not    string
	}{
		{"x := Vi|n", 0, []string{"Vin", "24 V", "18 … 32 V", "supply", "spec 4.2", "because   What the bench supply gives.", "used by   Pd in In [3]", "cell      In [1], line 2"}, []string{"<b>24", "18 … 32 V"}, ""},
		{"Vo|ut", 0, []string{"4.988 V", "from      800 mV · (1 + Rtop/Rbot)", "with      800 mV · (1 + 10 kΩ/1.91 kΩ)", "inputs    Rtop 10 kΩ, Rbot 1.91 kΩ", "used by   Pd in In [3]"}, []string{`\frac{R_{\mathrm{top}}}{R_{\mathrm{bot}}}`}, "inputs    Rtop 10 kΩ, Rbot 1.91 kΩ, "},
		{"Rbot|", 0, []string{"nearest E96 to", "ideal 1.905 kΩ, chosen 1.91 kΩ"}, nil, ""},
		{"y := tw|ice(Vin)", 0, []string{"func twice(v Quantity) Quantity", "twice gives the double.", "In [3]"}, nil, "return 2"},
		{"y := tw|ice(Vin)", 1, []string{"func twice(v Quantity) Quantity { return 2 * v }"}, []string{"<pre>func twice"}, ""},
		{"x := 62°C/|W", 0, []string{"62°C/W", "thermal resistance", "in SI     62 K/W", "1 °C/W = 1 K/W", "1 W = 1 J/s"}, nil, ""},
		{"x := 3kΩ + 10k|Ω", 0, []string{"10kΩ", "resistance", "in SI     10000 Ω", "k = 10³, 1 Ω = 1 V/A", "SI Brochure, 9th edition (2019), table 4"}, nil, ""},
		{"T := -40|°C", 0, []string{"in SI     233.15 K"}, nil, ""},
		{"x := 3V - 40|°C", 0, []string{"in SI     313.15 K"}, nil, ""},
		{"divider.Loa|ded(", 0, []string{"func Loaded(in LoadedInputs) (LoadedResult, error)", "Effective   = lower ∥ load resistance", "Holds for direct current", "Source: Kirchhoff", "Caution: a divider is no supply", "LoadResistance   from the node to ground, Ω; left out: none", "Sag            Unloaded − Output, V"},
			[]string{`\(\displaystyle \mathrm{OpenVoltage} = \frac{\mathrm{Input} \cdot \mathrm{Effective}}{\mathrm{Upper} + \mathrm{Effective}}\)`, `with \(\displaystyle \mathrm{LoadResistance}\)`, "<p>Source: Kirchhoff"}, "argument.First"},
		{"divider.Loa|ded(", 1, []string{"func Loaded(in LoadedInputs) (LoadedResult, error) {", "openVoltage := input.Mul(effective)"}, []string{"argument.First"}, ""},
		{"x := divider.Plain(12V, |", 0, []string{"func Plain(input, upper, lower units.Quantity)"}, nil, ""},
		{"divider.FeedbackLo|wer", 0, []string{"Where it holds, source and cautions: as FeedbackUpper.", "Holds for regulators that compare", "Caution: common practice"}, nil, ""},
		{"divider.FeedbackOutput(divider.FeedbackInputs{Lo|wer: 3Ω})", 0, []string{"Lower units.Quantity", "resistor from the feedback pin to ground, Ω"}, nil, ""},
		{"div|ider.Plain", 0, []string{"package divider", "Package divider computes voltage dividers", "Plain               Plain computes a divider that nothing loads."}, nil, ""},
		{"d.Out|put", 0, []string{"Output units.Quantity", "now 2.977 V", "node to ground, V"}, nil, ""},
		{"Near|est", 0, []string{"func Nearest(s Series, x units.Quantity) units.Quantity", "Source: IEC 60063"}, nil, ""},
		{"x := math.Sq|rt(2)", 0, []string{"func Sqrt(x float64) float64", "package math"}, nil, ""},
		{"func f(a Quantity) {\n\tb := a|", 0, []string{"a Quantity", "local to the function or block"}, nil, ""},
		{"Markdown(`The rail is {Vo|ut}.`)", 0, []string{"4.988 V", "from      800 mV · (1 + Rtop/Rbot)"}, nil, ""},
		{"Markdown(\"a {d.Out|put}\" +\n\" b\")", 0, []string{"Output units.Quantity", "now 2.977 V"}, nil, ""},
		{"cos|t", 0, []string{"$5 and $6"}, []string{`<span class="tex2jax_ignore mathjax_ignore">`}, ""},
	} {
		before, after, _ := strings.Cut(c.code, "|")
		got := p.reply(p.sendOn(p.shell, "inspect_request", opts{"code": before + after, "cursor_pos": len([]rune(before)), "detail_level": c.detail}))
		if got["found"] != true {
			t.Errorf("%q: not found", c.code)
			continue
		}
		data := got["data"].(map[string]any)
		plain, html := strings.ReplaceAll(fmt.Sprint(data["text/plain"]), "\u00a0", " "), strings.ReplaceAll(fmt.Sprint(data["text/html"]), "\u00a0", " ")
		for _, w := range c.plain {
			if !strings.Contains(plain, w) {
				t.Errorf("%q detail %d: the text lacks %q:\n%s", c.code, c.detail, w, plain)
			}
		}
		for _, w := range c.html {
			if !strings.Contains(html, w) {
				t.Errorf("%q detail %d: the HTML lacks %q:\n%s", c.code, c.detail, w, html)
			}
		}
		if c.not != "" && strings.Contains(plain+html, c.not) {
			t.Errorf("%q detail %d: %q is shown", c.code, c.detail, c.not)
		}
		// What survives the sanitising of untrusted notebooks.
		for _, tag := range htmlTag.FindAllStringSubmatch(html, -1) {
			if !strings.Contains(" table tbody tr td b i p pre span ul li sub br/ br ", " "+tag[1]+" ") {
				t.Errorf("%q: an element <%s>", c.code, tag[1])
			}
		}
	}
	for _, code := range []string{"", "if|", "x := |1 + 2", "// Vin|", "\"Vin|\"", "nothing|", "Markdown(`V|in`)", "Markdown(`{Vin limi|ts}`)", "Markdown(`{a, Vi|n}`)", "len|(x)"} {
		before, after, _ := strings.Cut(code, "|")
		if got := p.reply(p.sendOn(p.shell, "inspect_request", opts{"code": before + after, "cursor_pos": len([]rune(before))})); got["found"] != false {
			t.Errorf("%q: found %v", code, got["data"])
		}
	}
}

var htmlTag = regexp.MustCompile(`</?([a-z0-9]+/?)`)
