package notebook_test

import (
	"fmt"
	"strings"
	"testing"

	"ohmwright/kernel/notebook"
)

// large is a notebook of 30 cells with an image of 200 kB each.
func large(b *testing.B) []byte {
	n := notebook.New()
	for i := range 30 {
		c := n.AddCode(fmt.Sprintf("x%d := %dΩ\ny%d := x%d * 2", i, i, i, i))
		out, err := notebook.DisplayData(map[string]any{
			"text/plain": "x   1 Ω", "text/html": strings.Repeat("<tr><td>x</td></tr>\n", 100),
			"image/png": strings.Repeat("iVBORw0K", 25000),
		}, nil)
		must(b, err)
		must(b, c.SetOutputs([]notebook.Output{out}))
	}
	return n.Bytes()
}

func BenchmarkParse(b *testing.B) {
	data := large(b)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := notebook.Parse(data); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkSetOutputs sets all outputs to what they are, as a second run does.
func BenchmarkSetOutputs(b *testing.B) {
	data := large(b)
	n, err := notebook.Parse(data)
	must(b, err)
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		for _, c := range n.Cells() {
			must(b, c.SetOutputs(c.Outputs()))
		}
		n.Bytes()
	}
}
