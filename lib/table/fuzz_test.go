package table

import (
	"math"
	"testing"

	"ohmwright/units"
)

func nan() float64 { return math.NaN() }

// Whatever the text: no panic, an error or a table; and a table reads as
// finite values at its rows, between them and beyond.
func FuzzTable(f *testing.F) {
	for _, text := range []string{
		"", ordinary, platinum, "a [V];b [A]\n0,5;1\n1,5;2", "a [V] log,b [A] log\n1e-29,1e29\n2e-29,1e-29", "\ufeffa [Ω],b [dBm]\r\n4k7,-3\r\n10k,0",
		"load [A], junction [°C], dropout [mV]\n0,25,0\n0.5,25,300\n0,125,0\n0.2,125,150\n", "a [V],b [A]\n1,\"2\n", "#\n\n;\n", "a [1],b [1]\n,,\n1,1\n2,", "a [V], b [V]\n-1e29,-1e29\n1e29,1e29",
		"a [%],b [°C]\n1,-273.15\n2,1e29",
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		all, err := Text(text)
		if err != nil {
			if all.Given() || err.Error() == "" {
				t.Errorf("an error and a table: %v", err)
			}
			return
		}
		_ = all.String()
		for _, name := range all.Columns()[all.inputs:] {
			c, err := all.Of(name)
			if err != nil {
				t.Fatal(err)
			}
			for _, c := range []Table{c, c.Held(), c.Extended()} {
				for i := range min(all.Rows(), 50) {
					row := []units.Quantity{all.columns[0].values[i]}
					if all.inputs > 1 {
						row = append(row, all.columns[1].values[(i+1)%all.Rows()])
					}
					check(t, c, row...)
					for k, v := range row {
						for _, share := range []float64{0.3, -7} {
							if x, ok := along(all.columns[k].values[0], v, share); ok {
								row[k] = x
								check(t, c, row...)
							}
						}
						row[k] = v
					}
				}
			}
			if back, err := c.Inverse(); err == nil {
				check(t, back, back.columns[0].values[0])
			}
		}
	})
}

// along is a value on the line through two others, where there is one: 0 K is
// the end.
func along(a, b units.Quantity, share float64) (x units.Quantity, ok bool) {
	defer func() { ok = recover() == nil }()
	return a.Add(b.Sub(a).Mul(units.Number(share))), true
}

func check(t *testing.T, c Table, x ...units.Quantity) {
	t.Helper()
	y, err := c.At(x...)
	if err != nil {
		return
	}
	if v := y.SI(); math.IsNaN(v) || math.IsInf(v, 0) {
		t.Errorf("%v at %v", v, x)
	}
}
