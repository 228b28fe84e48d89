package ripple

import "testing"

func BenchmarkRectifierWithSource(b *testing.B) {
	in := supply()
	in.Resistance = q("1.5 Ω")
	for b.Loop() {
		if _, err := RectifierWithSource(in); err != nil {
			b.Fatal(err)
		}
	}
}
