package report

import (
	"fmt"
	"testing"

	"ohmwright/kernel/cell/host"
	"ohmwright/kernel/note"
)

// BenchmarkDocument300 computes a design of 300 values and writes its page.
func BenchmarkDocument300(b *testing.B) {
	w, err := host.Load()
	if err != nil {
		b.Fatal(err)
	}
	var sources []note.Source
	for i := range 30 {
		code := fmt.Sprintf("v%d_0 := 5V ± 2%% // input [data]\n", i)
		for k := 1; k < 10; k++ {
			code += fmt.Sprintf("v%d_%d := v%d_%d*1.01 + 1mV // step\n", i, k, i, k-1)
		}
		sources = append(sources, note.Source{ID: fmt.Sprint(i), Code: code})
	}
	for b.Loop() {
		n := note.New(note.Options{World: w})
		n.Set(sources)
		r := &Note{Path: "a.ipynb", Note: n, Results: n.Run(b.Context())}
		for i, x := range r.Results {
			if x.State != note.Done {
				b.Fatal(x.Errors)
			}
			r.Cells = append(r.Cells, Cell{Result: x, Code: sources[i].Code})
		}
		if _, err := NewDocument(&Design{Notes: []*Note{r}}, "", "0").HTML(); err != nil {
			b.Fatal(err)
		}
	}
}
