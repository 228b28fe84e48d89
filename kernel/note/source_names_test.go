package note_test

import (
	"slices"
	"testing"
)

// Several sources of one definition are told apart as people would, by what
// they are and no code.
func TestNamesOfSources(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		code string
		want []string
	}{
		{"x := 5V ± 1%", []string{"x"}},
		{"x := (12V ± 5%) + (3.3V ± 2%)", []string{"x (12 V ± 5 %)", "x (3.3 V ± 2 %)"}},
		{"x := (1kΩ ± 1%) - (1kΩ ± 1%)", []string{"x (1 kΩ ± 1 %)", "x (second 1 kΩ ± 1 %)"}},
		{"x := Band(40V, 42.1V, 44.2V) + Range(500mV, 600mV, 1V)", []string{"x (40 … 44.2 V)", "x (500 mV … 1 V)"}},
		{"x := (10kΩ ± Normal(1%, 3)) + (22kΩ ± 5%)", []string{"x (10 kΩ ± 1 %)", "x (22 kΩ ± 5 %)"}},
		{"low := 1V\nx := Range(low, 2V, 3V) + Range(-1V, 0V, 1V)", []string{"x (low … 3 V)", "x (−1 … 1 V)"}},
		{"f := func() Quantity { return 1V ± 1% }\nx := f() + f()", []string{"x", "x (second)"}},
	} {
		rs := settled(t, newNote(t), c.code)
		got := slices.Sorted(slices.Values(entry(rs, "x").Spread.Sources))
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: sources %q, want %q", c.code, got, c.want)
		}
	}
}
