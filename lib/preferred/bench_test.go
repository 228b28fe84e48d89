package preferred

import "testing"

func BenchmarkNearest(b *testing.B) {
	x := q("1.905 kΩ")
	for b.Loop() {
		Nearest(E96, x)
	}
}

func BenchmarkRatioPair(b *testing.B) {
	ratio, least, most := q("3.125"), q("1 kΩ"), q("1 MΩ")
	for b.Loop() {
		if _, err := RatioPair(E96, ratio, least, most); err != nil {
			b.Fatal(err)
		}
	}
}
