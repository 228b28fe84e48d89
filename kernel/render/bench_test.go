package render

import "testing"

// BenchmarkBundle: a cell of ten entries and two requirements, in the three
// forms that Jupyter gets.
func BenchmarkBundle(b *testing.B) {
	items := regulator(b)
	b.ReportAllocs()
	for b.Loop() {
		GroupBundle(items)
	}
}
