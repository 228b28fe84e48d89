package texmath

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"
)

// What each command means is TeX's and amsmath's; how it is written is MathML
// Core: a fraction has two children, a script its base and one or two.
func TestMathML(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ tex, want string }{
		{`x`, `<mi>x</mi>`},
		{`R_1`, `<msub><mi>R</mi><mn>1</mn></msub>`},
		{`x_i^2`, `<msubsup><mi>x</mi><mi>i</mi><mn>2</mn></msubsup>`},
		{`x^2_i`, `<msubsup><mi>x</mi><mi>i</mi><mn>2</mn></msubsup>`},
		{`\frac{a}{b+1}`, `<mfrac><mi>a</mi><mrow><mi>b</mi><mo>+</mo><mn>1</mn></mrow></mfrac>`},
		{`\frac12`, `<mfrac><mn>1</mn><mn>2</mn></mfrac>`},
		{`\sqrt{L C}`, `<msqrt><mrow><mi>L</mi><mi>C</mi></mrow></msqrt>`},
		{`\sqrt[3]{x}`, `<mroot><mi>x</mi><mn>3</mn></mroot>`},
		{`\Omega`, `<mi>Ω</mi>`},
		{`V_\mathrm{out}`, `<msub><mi>V</mi><mtext>out</mtext></msub>`},
		{`V_{\text{in}}`, `<msub><mi>V</mi><mtext>in</mtext></msub>`},
		{`3.3\,\mathrm{V}`, `<mrow><mn>3.3</mn><mspace width="0.17em"></mspace><mi mathvariant="normal">V</mi></mrow>`},
		{`\left(a\right)`, `<mrow><mo form="prefix" stretchy="true">(</mo><mi>a</mi><mo form="postfix" stretchy="true">)</mo></mrow>`},
		{`a \le b`, `<mrow><mi>a</mi><mo stretchy="false">≤</mo><mi>b</mi></mrow>`},
		{`\unheardof`, `<mtext>\unheardof</mtext>`},
		{`a<b`, `<mrow><mi>a</mi><mo>&lt;</mo><mi>b</mi></mrow>`},
		{`\text{<script>}`, `<mtext>&lt;script&gt;</mtext>`},
		{`\begin{cases}1 & x\\0 & y\end{cases}`, `<mrow><mo form="prefix" stretchy="true">{</mo><mtable><mtr><mtd><mn>1</mn></mtd><mtd><mi>x</mi></mtd></mtr><mtr><mtd><mn>0</mn></mtd><mtd><mi>y</mi></mtd></mtr></mtable><mo form="postfix" stretchy="true"></mo></mrow>`},
		{`}a`, `<mi>a</mi>`},
		{`{a`, `<mi>a</mi>`},
	} {
		if got := MathML(c.tex, false); got != "<math>"+c.want+"</math>" {
			t.Errorf("%s:\n got %s\nwant <math>%s</math>", c.tex, got, c.want)
		}
	}
	if got, want := MathML(`\sum_{i=1}^n`, true), `<math display="block"><munderover><mo>∑</mo>`; !strings.HasPrefix(got, want) {
		t.Errorf("a sum in a display: %s", got)
	}
}

// Whatever the text is, what comes of it is well formed, holds only elements
// of mathematics, and fractions and scripts have the children they need.
func FuzzTeX(f *testing.F) {
	for _, s := range []string{`\frac{a}{b}`, `x_1^2`, `\left(\frac{1}{2}\right)`, `\begin{matrix}a&b\\c\end{matrix}`, `\sqrt[`, `{{{`, `\text{<b>}`, `\ln x_`, `_a^b`, `\frac\ln\sin`, "\\\x00", `x''`, `\mathbf{x}_1`} {
		f.Add(s)
	}
	children := map[string]int{"mfrac": 2, "msub": 2, "msup": 2, "msubsup": 3, "munder": 2, "mover": 2, "munderover": 3, "mroot": 2}
	known := words("math mrow mi mn mo mtext mspace mfrac msqrt mroot msub msup msubsup munder mover munderover mtable mtr mtd")
	f.Fuzz(func(t *testing.T, s string) {
		d := xml.NewDecoder(strings.NewReader(MathML(s, true)))
		var names []string
		var counts []int
		for {
			token, err := d.Token()
			if err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%q gives %s: %v", s, MathML(s, true), err)
			}
			switch e := token.(type) {
			case xml.StartElement:
				if !known[e.Name.Local] {
					t.Fatalf("%q gives an element %s", s, e.Name.Local)
				}
				if len(counts) > 0 {
					counts[len(counts)-1]++
				}
				names, counts = append(names, e.Name.Local), append(counts, 0)
			case xml.EndElement:
				name, n := names[len(names)-1], counts[len(counts)-1]
				names, counts = names[:len(names)-1], counts[:len(counts)-1]
				if want, ok := children[name]; ok && n != want {
					t.Fatalf("%q gives %s of %d children: %s", s, name, n, MathML(s, true))
				}
			}
		}
	})
}
